// What an address names is opened: a finding of the list with its line, or a cell of the matrix.
function openNamed() {
  const { name } = inAddress();
  const cell = /^(cell|finding|advice-finding)-([0-9]+)-([0-9]+)$/.exec(name);
  if (!cell || !table.grid[cell[2]] || Number(cell[3]) >= CLAUSES) return;
  const [line, clause] = [Number(cell[2]), Number(cell[3])];
  const entry = cell[1] !== "cell" && allItems().find((one) => one.clause === clause && one.lines.includes(line) && (cell[1] === "finding") === (one.article.asked !== "advice"));
  if (entry) { openFinding(entry, line); return; }
  if (placeIn(line, clause).row < 0 || placeIn(line, clause).column < 0) { unfold(line, clause); redraw(); }
  const { row, column } = placeIn(line, clause);
  if (row >= 0 && column >= 0) { bringRowIntoSight(row); makeCurrent(row, column); }
  openPanel(line, clause);
}

function openFinding({ item, clause, lines }, line) {
  item.hidden = false;
  const details = item.querySelector("details");
  details.open = true;
  if (!item.querySelector(".filled")) fill(item, clause, lines);
  for (const one of document.querySelectorAll(".named")) one.classList.remove("named");
  item.classList.add("named");
  document.getElementById(`line-${line}-${clause}`)?.classList.add("named");
  item.scrollIntoView({ block: item.offsetHeight < innerHeight ? "center" : "start" }); // its working may be long
  details.querySelector("summary").focus({ preventScroll: true });
}

takeFromAddress();
applyFilters();
openNamed();
addEventListener("hashchange", () => { takeFromAddress(); applyFilters(); openNamed(); });
