// On paper the matrix is split over sheets so that every cell is printed, with the names of the lines on each of them.
const CLAUSES_ON_A_SHEET = 24; // as many columns as fit the width of a landscape Letter or A4 sheet
const sheets = document.getElementById("sheets");
const withWorkings = document.getElementById("print-workings");
let openedForPrint = [];

function sheet(clauses, number, count) {
  const heads = clauses.map((clause) => {
    const made = element("th", "", element("div", "", element("b", "", table.clauses[clause][0]), ` ${table.clauses[clause][1]}`));
    made.scope = "col";
    return made;
  });
  const rows = arrangement.lines.map((line) => {
    const [name, brief] = table.lines[line];
    const cells = clauses.map((clause) => { const { style, mark } = kindAt(line, clause); return element("td", style, mark); });
    const head = element("th", "", element("b", "", name), ` ${text(brief)}`);
    head.scope = "row";
    return element("tr", "", head, ...cells);
  });
  const [first, last] = [clauses[0], clauses.at(-1)].map((clause) => table.clauses[clause][0]);
  const words = count > 1 ? `Clauses ${first} to ${last} (part ${number} of ${count} of the matrix)` : `Clauses ${first} to ${last}`;
  return element("table", "sheet-of-matrix", element("caption", "", words),
    element("thead", "", element("tr", "", element("th", "", "Line"), ...heads)), element("tbody", "", ...rows));
}

addEventListener("beforeprint", () => {
  const count = Math.ceil(arrangement.clauses.length / CLAUSES_ON_A_SHEET);
  const size = Math.ceil(arrangement.clauses.length / (count || 1));
  sheets.replaceChildren(...Array.from({ length: count }, (_, number) => sheet(arrangement.clauses.slice(number * size, (number + 1) * size), number + 1, count)));
  document.documentElement.classList.toggle("with-workings", withWorkings.checked);
  if (!withWorkings.checked) return;
  for (const { item, clause, lines } of allItems()) {
    const details = item.querySelector("details");
    if (!item.querySelector(".filled")) fill(item, clause, lines.filter((line) => fitsIn(line, clause)));
    if (!details.open) { details.open = true; openedForPrint.push(details); }
  }
});
addEventListener("afterprint", () => {
  sheets.replaceChildren();
  for (const details of openedForPrint) details.open = false;
  openedForPrint = [];
});
