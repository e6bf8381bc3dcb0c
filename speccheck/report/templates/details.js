// The table of cells that the page carries, and its texts put back where the numbers stand.
const table = JSON.parse(document.getElementById("details").textContent);
const DIGITS = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz-_";
const text = (number) => table.texts[number];
table.texts.forEach((kept, number) => { if (Array.isArray(kept)) table.texts[number] = kept.map(text).join("; "); });
table.grid = table.grid.map(unpacked);
const CLAUSES = table.clauses.length;
const VERDICT_CLASSES = ["fail", "ask", "dev", "ok", "off", "off"];
const FAILS = 0;
const CANNOT_TELL = 1;
const NOT_CHECKED = 4;

// Numbers as the page writes them without separators: below 48 one digit, then two, behind the last digit three more.
function unpacked(row) {
  const found = [];
  for (let at = 0; at < row.length; at++) {
    const first = DIGITS.indexOf(row[at]);
    if (first < 48) found.push(first);
    else if (first < 63) found.push(48 + (first - 48) * 64 + DIGITS.indexOf(row[++at]));
    else found.push([1, 2, 3].reduce((sum, step) => sum * 64 + DIGITS.indexOf(row[at + step]), 0)), at += 3;
  }
  return found;
}

const where = (sheet, cell) => [text(sheet), cell].filter(Boolean).join(", ");
const rowOf = (cell) => /[0-9]+$/.exec(cell)?.[0] ?? "";

function lineAt(line) {
  const [name, brief, section, service, discipline, sheet, cell, layout, data] = table.lines[line];
  return {
    name, brief: text(brief), section: text(section), service: text(service), discipline: text(discipline),
    place: where(sheet, cell), data: data.map((number, index) => datumAt(number, table.layouts[layout], index, cell)),
  };
}

function datumAt(number, layout, index, cell) {
  const [written, readAs, note] = table.data[number].map(text);
  const [term, column] = layout.slice(2 * index, 2 * index + 2);
  return { term: text(term), written, readAs, note, place: /^[A-Z]+$/.test(column) ? column + rowOf(cell) : column };
}

const numberAt = (line, clause) => table.grid[line][clause];
const kinds = table.kinds.map(([verdict, mandatory, basis, mark]) => ({
  verdict, mandatory: Boolean(mandatory), basis: text(basis), mark: text(mark),
  style: VERDICT_CLASSES[verdict] + (mandatory ? "" : " advice"), finding: Boolean(mandatory) && verdict <= CANNOT_TELL,
}));
const kindAt = (line, clause) => kinds[table.cells[numberAt(line, clause)][0]];

function cellAt(line, clause) {
  const [kind, reason, steps = [], missing = [], at = [], notes = [], advice = null, adviceReason = 0] = table.cells[numberAt(line, clause)];
  return {
    ...kinds[kind], reason: text(reason), steps: steps.map((number) => stepAt(table.steps[number])),
    missing: missing.map(text), at: at.map(text), notes: notes.map(text),
    advice: advice === null ? "" : table.verdicts[advice], adviceReason: advice === null ? "" : text(adviceReason),
  };
}

function stepAt([part, depth, truth, words, detail]) {
  return { part: text(part), depth, truth: ["does not hold", "holds"][truth] ?? "not known", words: text(words), detail: text(detail) };
}

// An element with its class and what is in it. All text goes in as text, never as markup.
function element(name, className, ...children) {
  const made = document.createElement(name);
  if (className) made.className = className;
  made.append(...children);
  return made;
}

function button(words, action, className = "") {
  const made = element("button", className, words);
  made.type = "button";
  made.addEventListener("click", action);
  return made;
}
