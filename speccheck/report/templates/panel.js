// The panel in which one cell explains itself. All text goes in as text, never as markup.
const panel = document.getElementById("panel");
let opener = null;

function element(name, className, ...children) {
  const made = document.createElement(name);
  if (className) made.className = className;
  made.append(...children);
  return made;
}

function working(steps) {
  const body = element("tbody", "");
  for (const step of steps) {
    const row = element("tr", "", element("td", "", step.depth ? "" : step.part),
      element("td", `depth-${Math.min(step.depth, 4)}`, step.words), element("td", "", step.truth), element("td", `depth-${Math.min(step.depth, 4)}`, step.detail));
    body.append(row);
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

function section(title, ...content) {
  return [element("h3", "", title), ...content];
}

function bulleted(items) {
  return element("ul", "", ...items.map((item) => element("li", "", item)));
}

function explain(line, clause) {
  const cell = cellAt(line, clause);
  const [label, title] = table.clauses[clause];
  const { name, place, data } = lineAt(line);
  const heading = element("h2", "", `${label} ${title}`);
  heading.id = "panel-title";
  const shown = [
    element("p", "about", `Line ${name}${place ? ` (${place})` : ""}`), heading,
    element("p", `verdict verdict-${cell.verdict}`, table.verdicts[cell.verdict] + (cell.mandatory ? "" : " (advice)")),
    element("p", "reason", cell.reason), element("p", "about", `How it came about: ${cell.basis}.`),
  ];
  if (cell.at.length) shown.push(...section("At", bulleted(cell.at)));
  if (cell.missing.length) shown.push(...section("What would settle it", bulleted(cell.missing)));
  if (cell.advice && cell.mandatory) shown.push(...section("Recommendations", element("p", "", `${cell.advice}: ${cell.adviceReason}`)));
  if (cell.steps.length) shown.push(...section("Working", working(cell.steps)));
  if (cell.notes.length) shown.push(...section("Notes", bulleted(cell.notes)));
  shown.push(...section("What the clause says", document.querySelector(`#clause-${clause} .told`).cloneNode(true)));
  if (data.length) shown.push(...section("The line as written", lineData(data)));
  return shown;
}

function bar() {
  const buttons = [["Previous finding", "", () => step(-1)], ["Next finding", "", () => step(1)], ["Close", "close", () => panel.close()]];
  const made = element("div", "bar");
  for (const [words, className, action] of buttons) {
    const button = element("button", className, words);
    button.type = "button";
    button.addEventListener("click", action);
    made.append(button);
  }
  return made;
}

function openPanel(cell) {
  opener = cell;
  const { line, clause } = placeOf(cell);
  const keep = panel.open ? [...panel.querySelectorAll(".bar button")].indexOf(document.activeElement) : -1;
  panel.replaceChildren(bar(), ...explain(line, clause));
  if (!panel.open) panel.showModal();
  panel.querySelectorAll(".bar button")[keep >= 0 ? keep : 2].focus();
  panel.scrollTop = 0;
}

function step(direction) {
  const found = [...grid.querySelectorAll("td.fail, td.ask")].filter(isShown);
  const after = found.findIndex((cell) => opener.compareDocumentPosition(cell) & Node.DOCUMENT_POSITION_FOLLOWING);
  const here = found.indexOf(opener);
  let next = here >= 0 ? here + direction : direction > 0 ? after : (after < 0 ? found.length : after) - 1;
  if (found.length) openPanel(found[(next + found.length) % found.length]);
}

panel.addEventListener("close", () => { if (opener) focusCell(opener); });
panel.addEventListener("click", (event) => { if (event.target === panel) panel.close(); });
