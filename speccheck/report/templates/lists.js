// The lists of findings: which lines each of them is about, what fits, and their working when they are opened.
const WANTED = {
  advice: (cell) => cell[6] === FAILS || cell[6] === CANNOT_TELL,
  verdict: (wanted) => (cell) => kinds[cell[0]].mandatory && kinds[cell[0]].verdict === wanted,
};
const NAMED = 3;
const articles = [...document.querySelectorAll(".group")].map((node) => ({
  node, clause: Number(node.dataset.clause), asked: node.closest("section").dataset.verdict, items: [...node.querySelectorAll(".findings > li")],
}));
let listed = null;

// The lines of each item, found as the page was written: by what is said of them, in the order of their first lines.
function linesOf({ clause, asked, items }) {
  const wanted = asked === "advice" ? WANTED.advice : WANTED.verdict(Number(asked));
  const alike = new Map();
  table.grid.forEach((row, line) => {
    const cell = table.cells[row[clause]];
    if (!wanted(cell)) return;
    const said = asked === "advice" && text(cell[7]) ? cell[7] : cell[1];
    const key = `${said} ${cell[4] ?? ""}`;
    if (!alike.has(key)) alike.set(key, []);
    alike.get(key).push(line);
  });
  return [...alike.values()].map((lines, number) => ({ item: items[number], clause, lines }));
}

function allItems() {
  listed ??= articles.flatMap((article) => linesOf(article).map((one) => ({ ...one, article })));
  return listed;
}

const fitsIn = (line, clause) => !arrangement.fits || arrangement.fits[line * CLAUSES + clause];

function filterLists() {
  if (!arrangement.fits && !listed) return;
  const shown = new Set();
  for (const { item, clause, lines, article } of allItems()) {
    const fit = arrangement.fits ? lines.filter((line) => fitsIn(line, clause)) : lines;
    if (item.hidden === Boolean(fit.length)) item.hidden = !fit.length;
    if (!fit.length) continue;
    shown.add(article.node);
    if (lines.length > 1) tell(item, someNames(fit));
    if (item.querySelector(".filled")) fill(item, clause, fit);
  }
  for (const { node } of articles) if (node.hidden === shown.has(node)) node.hidden = !shown.has(node);
  for (const part of document.querySelectorAll("section:has(> .group)")) part.hidden = !part.querySelector(".group:not([hidden])");
  if (requests?.open) drawRequests();
}

// What is told already is left alone, for each change of a text is paid for when the page is laid out again.
const tellings = new Map();
function tell(item, words) {
  if (!tellings.has(item)) { const node = item.querySelector("summary b"); tellings.set(item, { node, words: node.textContent }); }
  const told = tellings.get(item);
  if (told.words !== words) { told.node.textContent = words; told.words = words; }
}

function someNames(lines) {
  const named = lines.slice(0, lines.length <= NAMED ? NAMED : NAMED - 1).map((line) => table.lines[line][0]);
  const last = lines.length <= NAMED ? named.pop() : `${lines.length - NAMED + 1} more`;
  return named.length ? `${named.join(", ")} and ${last}` : last;
}

// What an item tells when it is opened: each line as a button that opens its cell, and the working of the first.
function fill(item, clause, lines) {
  item.querySelector(".filled")?.remove();
  for (const one of item.querySelectorAll(".where")) one.hidden = lines.length > 1;
  const { steps, notes } = cellAt(lines[0], clause);
  const once = new Set([...item.closest(".group").querySelectorAll(":scope > .note")].map((note) => note.textContent));
  const names = element("p", "lines", ...lines.flatMap((line) => [lineButton(line, clause), " "]));
  const shown = element("div", "told filled", names);
  if (steps.length) shown.append(element("p", "caption", lines.length > 1 ? `Working on ${table.lines[lines[0]][0]}` : "Working"), working(steps));
  shown.append(...notes.filter((note) => !once.has(note)).map((note) => element("p", "note", note)));
  item.querySelector("details").append(shown);
}

function lineButton(line, clause) {
  const { name, brief, place } = lineAt(line);
  const made = button(name, () => { returnTo = made; openPanel(line, clause); }, "line");
  made.title = [brief, place].filter(Boolean).join(", ");
  made.id = `line-${line}-${clause}`;
  return made;
}

for (const { node } of articles) {
  node.addEventListener("toggle", (event) => {
    const entry = event.target.open && allItems().find(({ item }) => item === event.target.parentElement);
    if (entry && !entry.item.querySelector(".filled")) fill(entry.item, entry.clause, entry.lines.filter((line) => fitsIn(line, entry.clause)));
  }, true);
}

const requests = document.getElementById("requests");
requests?.addEventListener("toggle", () => { if (requests.open) drawRequests(); });

function drawRequests() {
  const rows = arrangement.lines.flatMap((line) => {
    const waiting = new Map();
    table.clauses.forEach(([label], clause) => {
      const { verdict, mandatory } = kindAt(line, clause);
      if (!mandatory || (verdict !== CANNOT_TELL && verdict !== NOT_CHECKED)) return;
      for (const term of cellAt(line, clause).missing) waiting.set(term, [...(waiting.get(term) ?? []), label]);
    });
    const { name, data } = lineAt(line);
    return [...waiting].map(([term, labels]) => {
      const datum = data.find((one) => one.term === term);
      const head = element("th", "", name);
      head.scope = "row";
      return element("tr", "", head, element("td", "", term), element("td", "", datum ? datum.written || "blank" : "not stated"), element("td", "", labels.join(", ")));
    });
  });
  requests.querySelector("tbody").replaceChildren(...rows);
}
