// The matrix as a grid. Only the rows in sight are in the page; one cell takes the focus, arrow keys move it.
const PARTS = -2; // the rows of the head count downwards
const HEADS = -1;
const SPARE = 8;
const view = document.getElementById("view");
const grid = document.getElementById("grid");
const [head, body] = [grid.tHead, grid.tBodies[0]];
const above = element("tr", "space", element("td"));
const below = element("tr", "space", element("td"));
for (const half of [head, body]) half.setAttribute("role", "rowgroup");
const nodes = new Map();
let rowHeight = 38;
let measured = false;
let current = { row: 0, column: 0 };
document.documentElement.classList.add("scripted");
for (const one of [above, below]) one.setAttribute("aria-hidden", "true");

// ---- drawing ----

function redraw() {
  nodes.clear();
  drawHead();
  body.replaceChildren(above, below);
  grid.style.setProperty("--columns", arrangement.columns.length);
  grid.setAttribute("aria-rowcount", arrangement.rows.length + head.rows.length);
  view.hidden = !arrangement.rows.length;
  if (!arrangement.rows.length) return;
  current = { row: Math.min(Math.max(current.row, HEADS), arrangement.rows.length - 1), column: Math.min(current.column, arrangement.columns.length - 1) };
  draw();
  if (!measured) { measured = true; measure(); }
}

// How high a row is follows the size of type that the reader has chosen.
function measure() {
  const { height } = nodes.values().next().value.getBoundingClientRect();
  if (height && height !== rowHeight) { rowHeight = height; draw(); }
}

function drawHead() {
  const heads = part("tr", "row", "heads", part("th", "columnheader", "corner", "Line"), ...arrangement.columns.map(columnHead));
  if (!arrangement.parts.length) { head.replaceChildren(heads); return; }
  const parts = part("tr", "row", "parts", part("td", "gridcell", "corner"), ...arrangement.parts.map(partHead));
  head.replaceChildren(parts, heads);
}

// A part of the grid says what it is, for its style lays it out as a box and no longer as a part of a table.
function part(name, role, className, ...children) {
  const made = element(name, className, ...children);
  made.setAttribute("role", role);
  return made;
}

function partHead({ name, key, folded, first, clauses }) {
  const words = clauses.length < 2 ? "" : folded ? "▸" : `▾ ${name}`; // a part of one column has no room for its name
  const fold = button(words, () => { chosen.set(key, !folded); renew(); focusOn(PARTS, first); });
  if (!words.includes(name)) fold.setAttribute("aria-label", name);
  fold.setAttribute("aria-expanded", String(!folded));
  fold.title = `${name}: ${clauses.length} ${clauses.length === 1 ? "clause" : "clauses"}`;
  fold.tabIndex = -1;
  fold.disabled = clauses.length < 2;
  const made = part("th", "columnheader", "", fold);
  const span = folded ? 1 : clauses.length;
  made.ariaColSpan = span;
  made.style.setProperty("--span", span);
  return made;
}

function columnHead({ part: { name, clauses }, clause }) {
  const [label, title] = clause === undefined ? [`${clauses.length} clauses`, name] : table.clauses[clause];
  const link = element("a", "", element("b", "", label), " ", element("span", "", title));
  link.href = `#clause-${clause ?? clauses[0]}`;
  link.title = title;
  link.tabIndex = -1;
  return part("th", "columnheader", "", link);
}

function rowNode(number) {
  const { line, group, count, found, folded, key } = arrangement.rows[number];
  const made = part("tr", "row", line === undefined ? "group-row" : "");
  made.dataset.row = number;
  made.setAttribute("aria-rowindex", number + head.rows.length + 1);
  const name = part("th", "rowheader", "");
  made.append(name);
  if (line === undefined) {
    name.ariaColSpan = arrangement.columns.length + 1;
    const told = found ? `${found} of ${count} with findings` : `${count} ${count === 1 ? "line" : "lines"}, no finding`;
    const fold = button(`${folded ? "▸" : "▾"} ${group}`, () => { chosen.set(key, !folded); renew(); focusOn(number, 0); });
    fold.setAttribute("aria-expanded", String(!folded));
    fold.tabIndex = -1;
    name.append(fold, " ", element("span", "", told));
    return made;
  }
  name.append(element("b", "", table.lines[line][0]), element("span", "", text(table.lines[line][1])));
  name.title = `${table.lines[line][0]} ${text(table.lines[line][1])}`;
  for (const { part: { clauses }, clause } of arrangement.columns) {
    const kind = clause === undefined ? gravest(line, clauses) : kindAt(line, clause);
    const cell = part("td", "gridcell", kind.style, kind.mark);
    if (arrangement.fits && clause !== undefined && !arrangement.fits[line * CLAUSES + clause]) cell.classList.add("beside");
    cell.tabIndex = -1;
    made.append(cell);
  }
  return made;
}

// Draws the rows in sight and some spare ones, and leaves those that are drawn already.
function draw() {
  const top = Math.max(0, Math.floor(view.scrollTop / rowHeight) - SPARE);
  const last = Math.min(arrangement.rows.length, Math.ceil((view.scrollTop + view.clientHeight) / rowHeight) + SPARE);
  const lost = [...nodes].filter(([number]) => number < top || number >= last);
  const held = lost.some(([, node]) => node.contains(document.activeElement));
  for (const [number, node] of lost) { node.remove(); nodes.delete(number); }
  for (let number = top, at = above.nextSibling; number < last; number++) {
    if (nodes.has(number)) { at = nodes.get(number).nextSibling; continue; }
    const made = rowNode(number);
    nodes.set(number, made);
    body.insertBefore(made, at);
  }
  setHeight(above, top * rowHeight);
  setHeight(below, (arrangement.rows.length - last) * rowHeight);
  if (current.row >= 0 && !nodes.has(current.row)) current = { ...current, row: Math.min(top + SPARE, last - 1) };
  const stop = nodeAt(current.row, current.column);
  if (stop) stop.tabIndex = 0;
  if (held && stop) stop.focus({ preventScroll: true });
}

function setHeight(space, height) {
  space.hidden = height <= 0;
  space.firstChild.style.height = `${height}px`;
}

// ---- focus ----

function nodeAt(row, column) {
  if (row === PARTS) return head.querySelector(".parts") && head.rows[0].cells[arrangement.parts.indexOf(arrangement.columns[column].part) + 1].firstChild;
  if (row === HEADS) return head.querySelector(".heads").cells[column + 1].firstChild;
  const node = nodes.get(row);
  return node && (node.className === "group-row" ? node.querySelector("button") : node.cells[column + 1]);
}

function makeCurrent(row, column) {
  const before = nodeAt(current.row, current.column);
  if (before) before.tabIndex = -1;
  current = { row, column };
  const now = nodeAt(row, column);
  if (now) now.tabIndex = 0;
  return now;
}

function focusOn(row, column) {
  if (row >= 0) bringRowIntoSight(row);
  const node = makeCurrent(row, column);
  if (!node) return;
  node.focus({ preventScroll: true });
  if (row !== PARTS) bringColumnIntoSight(node);
  const box = view.getBoundingClientRect();
  if (box.top > innerHeight - 200 || box.bottom < 200) view.scrollIntoView({ block: "nearest" });
}

// The header rows and the first column cover part of what scrolls under them.
function bringRowIntoSight(row) {
  const top = row * rowHeight;
  const room = view.clientHeight - head.offsetHeight;
  if (top < view.scrollTop) view.scrollTop = top;
  if (top + rowHeight > view.scrollTop + room) view.scrollTop = top + rowHeight - room;
  draw();
}

function bringColumnIntoSight(node) {
  const [box, frame] = [node.getBoundingClientRect(), view.getBoundingClientRect()];
  const left = frame.left + head.querySelector(".corner").offsetWidth;
  if (box.left < left) view.scrollLeft -= left - box.left;
  if (box.right > frame.left + view.clientWidth) view.scrollLeft += box.right - frame.left - view.clientWidth;
}

function moved({ row, column }, key, all) {
  const top = arrangement.parts.length ? PARTS : HEADS;
  const end = arrangement.columns.length - 1;
  const page = Math.max(1, Math.floor(view.clientHeight / rowHeight) - 8);
  const to = {
    ArrowRight: [row, column + (row === PARTS ? partWidth(column) : 1)],
    ArrowLeft: [row, row === PARTS ? arrangement.columns[column].part.first - 1 : column - 1],
    ArrowDown: [row + 1, column], ArrowUp: [row - 1, column], PageDown: [row + page, column], PageUp: [row - page, column],
    Home: [all ? 0 : row, 0], End: [all ? arrangement.rows.length - 1 : row, end],
  }[key];
  return to && { row: Math.min(Math.max(to[0], top), arrangement.rows.length - 1), column: Math.min(Math.max(to[1], 0), end) };
}

const partWidth = (column) => { const { part } = arrangement.columns[column]; return part.first + (part.folded ? 1 : part.clauses.length) - column; };

function cellOf(node) {
  const cell = node.closest("td");
  const row = Number(cell?.parentElement.dataset.row);
  return cell && cell.parentElement.dataset.row !== undefined ? { row, column: cell.cellIndex - 1 } : null;
}

function openAt({ row, column }) {
  const { line } = arrangement.rows[row];
  const { part, clause } = arrangement.columns[column];
  makeCurrent(row, column);
  if (clause !== undefined) { openPanel(line, clause); return; }
  chosen.set(part.key, false);
  renew();
  focusOn(row, part.first);
}

grid.addEventListener("keydown", (event) => {
  if (event.altKey || event.metaKey) return;
  const cell = cellOf(event.target);
  if (cell && (event.key === "Enter" || event.key === " ")) { event.preventDefault(); openAt(cell); return; }
  const next = moved(current, event.key, event.ctrlKey);
  if (next) { event.preventDefault(); focusOn(next.row, next.column); }
});
grid.addEventListener("click", (event) => {
  const cell = cellOf(event.target);
  if (cell && !event.ctrlKey && !event.metaKey && !event.shiftKey) openAt(cell);
});
view.addEventListener("scroll", draw, { passive: true });
addEventListener("resize", () => { if (nodes.size) { measure(); draw(); } });
