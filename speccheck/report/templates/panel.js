// The panel in which one cell explains itself.
const panel = document.getElementById("panel");
let opened = null;

function working(steps) {
  const body = element("tbody", "");
  for (const step of steps) {
    const depth = `depth-${Math.min(step.depth, 4)}`;
    body.append(element("tr", "", element("td", "", step.depth ? "" : step.part), element("td", depth, step.words),
      element("td", "", step.truth), element("td", depth, step.detail)));
  }
  return element("table", "working", body);
}

function lineData(data) {
  const list = element("dl", "line-data");
  for (const { term, written, readAs, place, note } of data) {
    const remarks = [readAs && `read as ${readAs}`, place, note].filter(Boolean).join("; ");
    list.append(element("dt", "", term), element("dd", "", written || "blank", ...(remarks ? [" ", element("span", "where", `(${remarks})`)] : [])));
  }
  return list;
}

const section = (title, ...content) => [element("h3", "", title), ...content];
const bulleted = (items) => element("ul", "", ...items.map((item) => element("li", "", item)));

// The picture of the line's surface temperature, where the page has one; a name stands once in a page.
function picture(line) {
  const found = document.querySelector(`#picture-${line} svg`)?.cloneNode(true);
  if (!found) return [];
  for (const one of [found, ...found.querySelectorAll("[id]")]) one.removeAttribute("id");
  found.removeAttribute("aria-labelledby");
  found.setAttribute("aria-label", "Surface temperature and heat flow");
  return section("Surface temperature", element("figure", "picture", found));
}

// The row of the line as it stands on paper, where the page has a picture of it.
function rowOnPaper(line) {
  const found = document.querySelector(`#row-${line}`)?.cloneNode(true);
  found?.removeAttribute("id");
  return found ? section("The row it came from", found) : [];
}

function explain(line, clause) {
  const cell = cellAt(line, clause);
  const [label, title] = table.clauses[clause];
  const { name, brief, place, data } = lineAt(line);
  const heading = element("h2", "", `${label} ${title}`);
  heading.id = "panel-title";
  const shown = [
    element("p", "about", `Line ${[name, brief].filter(Boolean).join(", ")}${place ? ` (${place})` : ""}`), heading,
    element("p", `verdict verdict-${cell.verdict}`, table.verdicts[cell.verdict] + (cell.mandatory ? "" : " (recommendation)")),
    element("p", "reason", cell.reason), element("p", "about", `How it came about: ${cell.basis}.`),
  ];
  if (cell.at.length) shown.push(...section("At", bulleted(cell.at)));
  if (cell.missing.length) shown.push(...section("What would settle it", bulleted(cell.missing)));
  if (cell.advice && cell.mandatory) shown.push(...section("Recommendations", element("p", "", `${cell.advice}: ${cell.adviceReason}`)));
  if (cell.steps.length) shown.push(...section("Working", working(cell.steps)));
  if (cell.notes.length) shown.push(...section("Notes", bulleted(cell.notes)));
  if (cell.finding) shown.push(...picture(line));
  shown.push(...section("What the clause says", document.querySelector(`#clause-${clause} .told`).cloneNode(true)));
  shown.push(...rowOnPaper(line));
  if (data.length) shown.push(...section("The line as written", lineData(data)));
  return shown;
}

function openPanel(line, clause) {
  opened = { line, clause };
  const buttons = panel.open ? [...panel.querySelectorAll(".bar button")].indexOf(document.activeElement) : -1;
  const bar = element("div", "bar", button("Previous finding", () => step(-1)), button("Next finding", () => step(1)), button("Close", () => panel.close(), "close"));
  panel.replaceChildren(bar, ...explain(line, clause));
  if (!panel.open) panel.showModal();
  bar.children[buttons >= 0 ? buttons : 2].focus();
  panel.scrollTop = 0;
  keepInAddress(`cell-${line}-${clause}`);
}

// The finding before or after the open cell, in the order in which the matrix is drawn, round and round.
function step(direction) {
  const cells = arrangement.rows.flatMap(({ line }) => (line === undefined ? [] : arrangement.columns
    .filter(({ clause }) => clause !== undefined && (kindAt(line, clause).finding || (line === opened.line && clause === opened.clause)))
    .map(({ clause }) => ({ line, clause }))));
  const here = cells.findIndex(({ line, clause }) => line === opened.line && clause === opened.clause);
  const next = cells[(here + direction + cells.length) % cells.length];
  if (next) openPanel(next.line, next.clause);
}

panel.addEventListener("close", () => {
  keepInAddress("");
  const { row, column } = placeIn(opened.line, opened.clause);
  if (returnTo) returnTo.focus();
  else if (row >= 0 && column >= 0) focusOn(row, column);
  returnTo = null;
});
panel.addEventListener("click", (event) => { if (event.target === panel) panel.close(); });
let returnTo = null; // where the panel was opened from, if that was not the matrix
