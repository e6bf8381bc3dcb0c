// Filters: lines and clauses with no cell that fits are hidden, in the matrix and in the lists below it.
const form = document.getElementById("filters");
const rows = [...grid.tBodies[0].rows];
const heads = [...grid.tHead.rows[0].cells].slice(1);
const lowerTexts = table.texts.map((words) => words.toLowerCase());
const lineTexts = rows.map((row, line) => {
  const { name, place, data } = lineAt(line);
  return [name, place, ...data.flatMap(Object.values)].join(" ").toLowerCase();
});
const clauseTexts = table.clauses.map((parts) => parts.join(" ").toLowerCase());

function fits(line, clause, wish) {
  if (wish.clause !== "" && clause !== Number(wish.clause)) return false;
  if (wish.service && rows[line].dataset.service !== wish.service) return false;
  const [verdict, mandatory, , reason, , , , , advice, adviceReason] = table.cells[table.grid[line][clause]];
  if (wish.verdict === "advice") {
    if (advice !== 0 && advice !== 1) return false;
  } else if (wish.verdict !== "" && (verdict !== Number(wish.verdict) || !mandatory)) return false;
  return !wish.text || [lineTexts[line], clauseTexts[clause], lowerTexts[reason], lowerTexts[adviceReason]].some((words) => words.includes(wish.text));
}

function applyFilters() {
  const wish = Object.fromEntries(new FormData(form));
  wish.text = wish.text.trim().toLowerCase();
  const any = Object.values(wish).some(Boolean);
  const fitting = rows.map((row, line) => heads.map((head, clause) => !any || fits(line, clause, wish)));
  const clauses = heads.map((head, clause) => !any || fitting.some((row) => row[clause]));
  const lines = fitting.map((row) => !any || row.some(Boolean));
  heads.forEach((head, clause) => { head.hidden = !clauses[clause]; });
  rows.forEach((row, line) => {
    row.hidden = !lines[line];
    clauses.forEach((shown, clause) => { row.cells[clause + 1].hidden = !shown; });
  });
  filterLists(fitting, lines);
  const shown = [lines, clauses].map((which) => which.filter(Boolean).length);
  form.elements.shown.value = !any ? "" : shown[0]
    ? `${shown[0]} of ${rows.length} lines, ${shown[1]} of ${heads.length} clauses`
    : "No cell of the matrix fits all of these.";
  grid.closest(".scroll").hidden = !shown[0];
  if (current && !isShown(current)) {
    const next = [...grid.querySelectorAll("tbody td")].find(isShown);
    if (next) makeCurrent(next);
  }
}

function filterLists(fitting, lines) {
  for (const item of document.querySelectorAll("[data-cell]")) {
    const [line, clause] = item.dataset.cell.split("-").map(Number);
    item.hidden = !fitting[line][clause];
  }
  for (const group of document.querySelectorAll(".group")) group.hidden = !group.querySelector("[data-cell]:not([hidden])");
  for (const part of document.querySelectorAll("section:has(.group)")) part.hidden = !part.querySelector(".group:not([hidden])");
  for (const row of document.querySelectorAll(".plain [data-line]")) row.hidden = !lines[Number(row.dataset.line)];
}

form.addEventListener("input", applyFilters);
form.addEventListener("reset", () => setTimeout(applyFilters));
form.addEventListener("submit", (event) => event.preventDefault());
applyFilters();
