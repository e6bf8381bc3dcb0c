// Copies findings, one or all that are shown, as text or as rows for a spreadsheet; shows what would comply in its place.
const WRITERS = {
  text: (all) => all.map(({ lines, label, verdict, reason }) => `${lines.split("\n").join(", ")}, ${label}: ${verdict}. ${reason}`).join("\n"),
  rows: (all) => all.flatMap(({ lines, label, verdict, reason }) => lines.split("\n").map((line) => [line, label, verdict, reason].map(safe).join("\t"))).join("\n"),
};
// A text that a spreadsheet would take for a formula is kept a text.
const safe = (text) => (/^[=+\-@]/.test(text) ? `'${text}` : text).replace(/[\t\n]/g, " ");
const told = document.querySelector("[data-copied]");

async function copy(findings, kind) {
  const all = findings.map((one) => ({ ...one.dataset }));
  await navigator.clipboard.writeText(WRITERS[kind](all));
  told.value = `${all.length} copied`;
}

for (const button of document.querySelectorAll("[data-copy]")) {
  button.addEventListener("click", () => copy([...document.querySelectorAll("[data-finding]")], button.dataset.copy));
}
for (const button of document.querySelectorAll("[data-copy-one]")) {
  button.addEventListener("click", async () => { await copy([button.closest("[data-finding]")], "text"); button.textContent = "Copied"; });
}
for (const link of document.querySelectorAll("[data-proposal]")) {
  link.addEventListener("click", async (event) => {
    if (event.ctrlKey || event.metaKey || event.shiftKey) return;
    event.preventDefault();
    const place = document.createElement("div");
    place.setAttribute("role", "status");
    place.textContent = "Looking for what would comply …";
    link.replaceWith(place);
    const answer = await fetch(`${link.href}&part=1`);
    if (answer.status !== 200) { location.href = link.href; return; }
    place.replaceChildren(...new DOMParser().parseFromString(await answer.text(), "text/html").body.childNodes);
  });
}
const named = document.getElementById(location.hash.slice(1))?.closest("[data-finding]");
if (named) { named.classList.add("named"); named.querySelector("details").open = true; named.scrollIntoView({ block: "center" }); }
