// The matrix as a grid: one cell takes the focus, arrow keys move it, Enter opens it.
const grid = document.getElementById("grid");
document.documentElement.classList.add("scripted");
grid.setAttribute("role", "grid");
grid.closest(".scroll").removeAttribute("tabindex");
for (const link of grid.querySelectorAll("td a")) link.tabIndex = -1;

let current = null;

function placeOf(cell) {
  return { line: Number(cell.parentElement.dataset.line), clause: cell.cellIndex - 1 };
}

function isShown(cell) {
  return !cell.hidden && !cell.parentElement.hidden;
}

function makeCurrent(cell) {
  if (current) current.tabIndex = -1;
  current = cell;
  current.tabIndex = 0;
}

function focusCell(cell) {
  makeCurrent(cell);
  cell.focus({ preventScroll: true });
  bringIntoSight(cell);
}

// The header row and the first column cover part of what scrolls under them.
function bringIntoSight(cell) {
  const view = grid.closest(".scroll");
  const box = cell.getBoundingClientRect();
  const frame = view.getBoundingClientRect();
  const left = frame.left + cell.parentElement.cells[0].offsetWidth;
  const top = frame.top + grid.tHead.offsetHeight;
  if (box.left < left) view.scrollLeft -= left - box.left;
  if (box.right > frame.left + view.clientWidth) view.scrollLeft += box.right - frame.left - view.clientWidth;
  if (box.top < top) view.scrollTop -= top - box.top;
  if (box.bottom > frame.top + view.clientHeight) view.scrollTop += box.bottom - frame.top - view.clientHeight;
  if (view.getBoundingClientRect().top > innerHeight || view.getBoundingClientRect().bottom < 0) view.scrollIntoView({ block: "nearest" });
}

function along(cell, direction, down) {
  let next = cell;
  do {
    if (down) {
      const row = direction > 0 ? next.parentElement.nextElementSibling : next.parentElement.previousElementSibling;
      next = row ? row.cells[next.cellIndex] : null;
    } else {
      next = direction > 0 ? next.nextElementSibling : next.previousElementSibling;
    }
    if (!next || next.tagName !== "TD") return null;
  } while (!isShown(next));
  return next;
}

function furthest(cell, direction, down) {
  let last = cell;
  for (let next = cell; next; next = along(next, direction, down)) last = next;
  return last;
}

const MOVES = {
  ArrowRight: (cell) => along(cell, 1, false), ArrowLeft: (cell) => along(cell, -1, false),
  ArrowDown: (cell) => along(cell, 1, true), ArrowUp: (cell) => along(cell, -1, true),
  Home: (cell, all) => furthest(all ? furthest(cell, -1, true) : cell, -1, false),
  End: (cell, all) => furthest(all ? furthest(cell, 1, true) : cell, 1, false),
};

grid.addEventListener("keydown", (event) => {
  const cell = event.target.closest("td");
  if (!cell || event.altKey || event.metaKey) return;
  if (event.key === "Enter" || event.key === " ") {
    event.preventDefault();
    openPanel(cell);
  } else if (MOVES[event.key]) {
    event.preventDefault();
    const next = MOVES[event.key](cell, event.ctrlKey);
    if (next) focusCell(next);
  }
});

grid.addEventListener("click", (event) => {
  const cell = event.target.closest("td");
  if (!cell || event.ctrlKey || event.metaKey || event.shiftKey) return;
  event.preventDefault();
  makeCurrent(cell);
  openPanel(cell);
});

const first = grid.querySelector("tbody td");
if (first) makeCurrent(first);
