// Which lines and clauses are drawn: filtered, ordered, put together in groups, and folded where nothing was found.
const GROUPED_BY = { section: 2, service: 3, discipline: 4 };
const MANY_CLAUSES = 12;
const chosen = new Map(); // what somebody folded or unfolded
const lowerTexts = table.texts.map((words) => words.toLowerCase());
const findingsOf = table.lines.map((line, number) => table.grid[number].filter((cell) => kinds[table.cells[cell][0]].finding).length);
const collator = new Intl.Collator("en", { numeric: true });
let arrangement;

// One byte for each cell, 1 where it fits what is asked for; null where nothing is asked for.
function fitting(wish) {
  const words = wish.text.toLowerCase();
  if (!wish.verdict && !wish.service && !wish.clause && !words) return null;
  const hits = words && lowerTexts.map((one) => one.includes(words));
  const rightVerdict = table.cells.map((cell) => verdictFits(cell, wish.verdict));
  const rightWords = table.cells.map((cell) => !words || hits[cell[1]] || (cell.length > 7 && hits[cell[7]]));
  const rightClause = table.clauses.map((clause) => words && clause.slice(0, 2).join(" ").toLowerCase().includes(words));
  const fits = new Uint8Array(table.lines.length * CLAUSES);
  table.grid.forEach((row, line) => {
    if (wish.service && text(table.lines[line][3]) !== wish.service) return;
    const rightLine = words && lineHas(line, words, hits);
    row.forEach((cell, clause) => {
      if (wish.clause !== "" && clause !== Number(wish.clause)) return;
      if (rightVerdict[cell] && (rightLine || rightWords[cell] || rightClause[clause])) fits[line * CLAUSES + clause] = 1;
    });
  });
  return fits;
}

function verdictFits(cell, wanted) {
  if (wanted === "advice") return cell[6] === FAILS || cell[6] === CANNOT_TELL;
  const { verdict, mandatory } = kinds[cell[0]];
  return wanted === "" || (mandatory && verdict === Number(wanted));
}

function lineHas(line, words, hits) {
  const [name, brief, section, , , sheet, cell, , data] = table.lines[line];
  if (name.toLowerCase().includes(words) || hits[brief] || hits[section]) return true;
  return where(sheet, cell).toLowerCase().includes(words) || data.some((one) => hits[table.data[one][0]] || hits[table.data[one][1]]);
}

function isFolded(key, withoutFinding) {
  return chosen.has(key) ? chosen.get(key) : withoutFinding && !arrangement.fits;
}

function arrange() {
  const wish = wishes();
  const fits = fitting(wish);
  arrangement = { fits, lines: [], clauses: [], rows: [], columns: [], parts: [] };
  const shows = (line, clause) => !fits || fits[line * CLAUSES + clause];
  const clauses = table.clauses.map((_, clause) => clause);
  arrangement.lines = table.lines.map((_, line) => line).filter((line) => clauses.some((clause) => shows(line, clause)));
  arrangement.clauses = clauses.filter((clause) => arrangement.lines.some((line) => shows(line, clause)));
  if (wish.sort === "findings") arrangement.lines.sort((a, b) => findingsOf[b] - findingsOf[a] || a - b);
  if (wish.sort === "name") arrangement.lines.sort((a, b) => collator.compare(table.lines[a][0], table.lines[b][0]) || a - b);
  arrangeRows(wish.group);
  arrangeColumns();
}

function arrangeRows(by) {
  if (!by) { arrangement.rows = arrangement.lines.map((line) => ({ line })); return; }
  const groups = new Map();
  for (const line of arrangement.lines) {
    const name = text(table.lines[line][GROUPED_BY[by]]) || `no ${by}`;
    if (!groups.has(name)) groups.set(name, []);
    groups.get(name).push(line);
  }
  for (const [name, lines] of groups) {
    const found = lines.filter((line) => findingsOf[line]).length;
    const key = `${by} ${name}`;
    const folded = isFolded(key, !found);
    arrangement.rows.push({ group: name, key, folded, count: lines.length, found });
    if (!folded) arrangement.rows.push(...lines.map((line) => ({ line })));
  }
}

function arrangeColumns() {
  for (const clause of arrangement.clauses) {
    const name = text(table.clauses[clause][2]);
    const last = arrangement.parts.at(-1);
    if (last?.name === name) last.clauses.push(clause);
    else arrangement.parts.push({ name, clauses: [clause] });
  }
  const several = arrangement.parts.length > 1;
  for (const part of arrangement.parts) {
    const found = part.clauses.some((clause) => arrangement.lines.some((line) => kindAt(line, clause).finding));
    part.key = `part ${part.clauses[0]}`;
    part.folded = several && part.clauses.length > 1 && isFolded(part.key, !found && arrangement.clauses.length > MANY_CLAUSES);
    part.first = arrangement.columns.length;
    arrangement.columns.push(...(part.folded ? [{ part }] : part.clauses.map((clause) => ({ part, clause }))));
  }
  if (!several) arrangement.parts = [];
}

// The cell that stands for several: the gravest of the mandatory ones.
function gravest(line, clauses) {
  const all = clauses.map((clause) => kindAt(line, clause));
  const decided = all.filter((kind) => kind.mandatory);
  return (decided.length ? decided : all).reduce((worst, kind) => (kind.verdict < worst.verdict ? kind : worst));
}

function placeIn(line, clause) {
  return {
    row: arrangement.rows.findIndex((row) => row.line === line),
    column: arrangement.columns.findIndex((column) => column.clause === clause),
  };
}

// Where a cell is folded away, what folds it is opened.
function unfold(line, clause) {
  const part = arrangement.columns.find((column) => column.part.clauses.includes(clause))?.part;
  if (part?.folded) chosen.set(part.key, false);
  const by = wishes().group;
  if (by) chosen.set(`${by} ${text(table.lines[line][GROUPED_BY[by]]) || `no ${by}`}`, false);
  arrange();
}
