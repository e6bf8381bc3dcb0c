// Finds rulesets by words of their title, what they cover, and their place; says which one is chosen.
const form = document.querySelector("form.start");
const find = form?.querySelector("[data-find]");
const all = [...(form?.querySelectorAll("[data-ruleset]") ?? [])];
const plain = (text) => text.normalize("NFD").replace(/[\u0300-\u036f]/g, "").toLowerCase();

function narrow() {
  const words = plain(find.value).split(/\s+/).filter(Boolean);
  for (const one of all) one.hidden = !words.every((word) => plain(one.dataset.ruleset).includes(word));
  for (const group of form.querySelectorAll(".subject")) {
    const fits = group.querySelector("[data-ruleset]:not([hidden])");
    group.hidden = !fits;
    group.open = words.length > 0 && Boolean(fits);
  }
  for (const head of form.querySelectorAll(".against h3, .against h4")) head.hidden = !head.nextElementSibling.querySelector("li:not([hidden])");
  const count = all.filter((one) => !one.hidden).length;
  form.querySelector("[data-found]").textContent = words.length ? `${count} of ${all.length} rulesets${count ? "" : ": try a shorter word, or a country"}` : "";
}

// A file with clauses of one's own is there to be checked against.
function chooseOwn({ target }) {
  if (target.name === "clauses" && target.files.length) form.querySelector("input[name=against]").checked = true;
}

function tellChosen() {
  const chosen = form.querySelector("input[name=against]:checked")?.closest("label").querySelector("b").textContent;
  form.querySelector("[data-chosen]").textContent = chosen ? `Checked against: ${chosen}` : "";
}

if (form) {
  find.closest("label").hidden = false; // without this script there is nothing to find with
  find.addEventListener("input", narrow);
  find.addEventListener("keydown", (event) => { if (event.key === "Enter") event.preventDefault(); });
  form.addEventListener("change", (event) => { chooseOwn(event); tellChosen(); });
  narrow();
  tellChosen();
}
