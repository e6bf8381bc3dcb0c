// Follows long work, and comes back to the address when it is done. The desk answers after a moment, or at once at the end.
const place = document.querySelector("[data-job]");
const bar = place.querySelector("progress");
const words = place.querySelector("[data-what]");

async function follow() {
  let job;
  try {
    const answer = await fetch(`/api/jobs/${place.dataset.job}`);
    if (!answer.ok) throw new Error(answer.statusText);
    job = await answer.json();
  } catch {
    words.textContent = "The desk does not answer. If it was ended, start it again: the review is kept in its folder.";
    bar.hidden = true;
    return;
  }
  if (job.finished) { done(); return; }
  words.textContent = job.total ? `${job.what}: ${job.done} of ${job.total}` : job.what || "waiting";
  if (job.total) { bar.max = job.total; bar.value = job.done; }
  follow();
}

function done() {
  location.reload(); // to go to the same address would only move to the place behind its #
  setTimeout(() => { // this page still stands: what was asked for is a file
    words.textContent = "Done. The file is among your downloads.";
    bar.hidden = true;
    place.querySelector("form").hidden = true;
    place.querySelector("[data-back]").hidden = false;
  }, 2000);
}
place.querySelector("[data-back]").addEventListener("click", () => history.back());
follow();
