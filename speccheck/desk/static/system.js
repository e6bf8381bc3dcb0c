// Works the system out again a moment after a value has changed; without this script the button does.
const form = document.querySelector("[data-system]");
const result = document.querySelector("[data-result]");
let waiting = 0;
let latest = 0;

async function renew() {
  const mine = ++latest;
  const said = new URLSearchParams(new FormData(form));
  history.replaceState(null, "", `/system?${said}`);
  said.set("part", "1");
  const answer = await fetch(`/system?${said}`);
  const markup = await answer.text();
  if (mine === latest && answer.ok) result.replaceChildren(...new DOMParser().parseFromString(markup, "text/html").body.childNodes);
}
form.addEventListener("input", (event) => {
  clearTimeout(waiting);
  if (event.target.name === "units") { location.href = `/system?units=${encodeURIComponent(event.target.value)}`; return; }
  waiting = setTimeout(renew, 250);
});
