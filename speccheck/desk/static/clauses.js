// The editor: mistakes under the text as one types, examples in the margin, completion. It asks the desk for all of it.
const form = document.querySelector(".editor");
const area = form.querySelector("textarea");
const margin = form.querySelector("[data-margin]");
const list = form.querySelector("[data-completions]");
const mistakes = document.querySelector("[data-mistakes]");
const examples = document.querySelector("[data-examples]");
const state = form.querySelector("[data-state]");
let latest = 0;
let waiting = 0;
let resting = 0;
const REST = 2500;
let marks = new Map();

function element(name, className, ...children) {
  const made = document.createElement(name);
  if (className) made.className = className;
  made.append(...children);
  return made;
}

async function ask(what, more) {
  const answer = await fetch(form.dataset.ask, {
    method: "POST", headers: { "content-type": "application/json" }, body: JSON.stringify({ what, text: area.value, ...more }),
  });
  return answer.ok ? answer.json() : null;
}

function drawMargin() {
  const count = area.value.split("\n").length;
  margin.replaceChildren(...Array.from({ length: count }, (_, index) => {
    const mark = marks.get(index + 1);
    return element("span", mark ? mark.sort : "", `${mark ? `${mark.words} ` : ""}${index + 1}\n`);
  }));
  margin.scrollTop = area.scrollTop;
}

function goTo(line, column) {
  const lines = area.value.split("\n");
  const at = lines.slice(0, line - 1).reduce((sum, row) => sum + row.length + 1, 0) + Math.max(column - 1, 0);
  area.focus();
  area.setSelectionRange(at, at + Math.max(1, 0));
  area.scrollTop = (line - 6) * parseFloat(getComputedStyle(area).lineHeight);
}

async function check() {
  const mine = ++latest;
  const found = await ask("analysis", {});
  if (mine !== latest || !found) return;
  marks = new Map();
  for (const one of found.examples) marks.set(one.line, { words: one.words.replace(/ of ([0-9]+) .*/, "/$1"), sort: one.right ? "right" : "wrong" });
  for (const one of found.marks) marks.set(one.line, { words: one.right ? "✓" : "✗", sort: one.right ? "right" : "wrong" });
  for (const one of found.diagnostics) if (one.severity !== "note") marks.set(one.line, { words: one.severity === "error" ? "✗" : "!", sort: one.severity });
  drawMargin();
  mistakes.replaceChildren(...found.diagnostics.map((one) => {
    return element("li", one.severity, lineLink(one.line, one.column), ` ${one.severity} ${one.code}: ${one.message}`, ...(one.help ? [element("p", "help", one.help)] : []));
  }));
  if (!found.diagnostics.length) mistakes.replaceChildren(element("li", "none", "No mistakes."));
  const wrong = found.examples.filter((one) => !one.right).length;
  document.querySelector("[data-examples-told]").textContent = `${found.examples.length} clauses with examples; ${wrong ? `those of ${wrong} do not come out` : "all come out"}`;
  if (wrong) examples.closest("details").open = true;
  examples.replaceChildren(...found.examples.toSorted((one, other) => one.right - other.right).map((one) => element("li", one.right ? "" : "wrong", `${one.label}: ${one.words}`)));
  const errors = found.diagnostics.filter((one) => one.severity === "error").length;
  clearTimeout(resting);
  if (!errors) resting = setTimeout(proofread, REST);
  state.value = errors ? `${errors} ${errors === 1 ? "mistake" : "mistakes"}` : `${found.clauses} clauses, no mistake`;
}

// Proofreading waits until the text rests and has no mistakes; each finding leads to its line.
async function proofread() {
  const mine = latest;
  const told = document.querySelector("[data-proofread]");
  told.textContent = "Proofreading …";
  const found = await ask("proofread text", {});
  if (mine !== latest || !found) return;
  told.textContent = found.heading;
  document.querySelector("[data-remarks]").replaceChildren(...found.groups.flatMap((group) => group.remarks.map((one) => element("li", "",
    element("p", "", element("b", "", `${group.title} `), one.line ? lineLink(one.line, 1) : element("span", "where", one.place), ` ${one.message}`),
    ...one.lines.map((line) => element("p", "where", `${line.shows}: ${line.text} `, tryButton(line.text))), ...(one.help ? [element("p", "help", one.help)] : [])))));
}

function lineLink(line, column) {
  const button = element("button", "link", `line ${line}`);
  button.type = "button";
  button.addEventListener("click", () => goTo(line, column));
  return button;
}

function tryButton(line) {
  const button = element("button", "link", "Try it");
  button.type = "button";
  button.addEventListener("click", () => { trying.elements.line.value = line; trying.elements.line.focus(); trying.requestSubmit(); });
  return button;
}

function before() {
  const lines = area.value.slice(0, area.selectionStart).split("\n");
  const row = lines[lines.length - 1];
  return { line: lines.length - 1, column: row.length, begun: /[^\s,:]*$/.exec(row)[0] };
}

function choose(index) {
  const items = [...list.children];
  items.forEach((item, number) => item.setAttribute("aria-selected", String(number === index)));
  items[index]?.scrollIntoView({ block: "nearest" });
}
const chosen = () => [...list.children].findIndex((item) => item.getAttribute("aria-selected") === "true");

async function complete() {
  const { line, column, begun } = before();
  const found = await ask("completion", { line, column, begun });
  list.replaceChildren(...(found ?? []).map((one) => {
    const item = element("li", "", element("b", "", one.text), ` ${one.sort}`);
    item.setAttribute("role", "option");
    item.addEventListener("mousedown", (event) => { event.preventDefault(); take(one.text); });
    return item;
  }));
  list.hidden = !list.children.length;
  if (!list.hidden) choose(0);
}

function take(text) {
  const { begun } = before();
  area.setRangeText(text, area.selectionStart - begun.length, area.selectionStart, "end");
  list.hidden = true;
  area.dispatchEvent(new Event("input"));
}

area.addEventListener("keydown", (event) => {
  if (event.ctrlKey && event.key === " ") { event.preventDefault(); complete(); return; }
  if (list.hidden) return;
  const last = list.children.length - 1;
  if (event.key === "Escape") list.hidden = true;
  else if (event.key === "ArrowDown") choose(Math.min(chosen() + 1, last));
  else if (event.key === "ArrowUp") choose(Math.max(chosen() - 1, 0));
  else if (event.key === "Enter") take(list.children[chosen()].querySelector("b").textContent);
  else return;
  event.preventDefault();
});
area.addEventListener("input", () => { drawMargin(); clearTimeout(waiting); waiting = setTimeout(check, 350); });
area.addEventListener("scroll", () => { margin.scrollTop = area.scrollTop; });
area.addEventListener("blur", () => { list.hidden = true; });

const trying = document.querySelector("[data-try]");
trying.addEventListener("submit", async (event) => {
  event.preventDefault();
  const found = await ask("try line", { line: trying.elements.line.value });
  const out = document.querySelector("[data-tried]");
  if (!found) return;
  out.replaceChildren(
    ...(found.unusable ? [element("p", "", "The text has mistakes; nothing was judged.")] : []),
    ...found.diagnostics.map((one) => element("p", "", `${one.severity}: ${one.message} ${one.help}`)),
    element("ul", "plain-list", ...found.cells.map((one) => element("li", "", element("b", "", `${one.label} ${one.verdict}`), ` ${one.reason}`))),
  );
});
const prose = document.querySelector("[data-prose]");
prose.addEventListener("toggle", () => {
  if (!prose.open || prose.querySelector("iframe")) return;
  const frame = element("iframe", "prose");
  frame.title = "The clauses as a specification section";
  frame.src = prose.dataset.prose;
  prose.append(frame);
});
if (matchMedia("(min-width: 75rem)").matches) prose.open = true; // there it stands beside the text
drawMargin();
check();
