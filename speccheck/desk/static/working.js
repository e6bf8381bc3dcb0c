// Follows long work, and comes back to the address when it is done.
const place = document.querySelector("[data-job]");
const bar = place.querySelector("progress");

async function follow() {
  const answer = await fetch(`/api/jobs/${place.dataset.job}`);
  const job = await answer.json();
  if (job.finished) { location.reload(); return; } // to go to the same address would only move to the place behind its #
  place.querySelector("[data-what]").textContent = job.total ? `${job.what}: ${job.done} of ${job.total}` : job.what || "waiting";
  if (job.total) { bar.max = job.total; bar.value = job.done; }
  setTimeout(follow, 60);
}
follow();
