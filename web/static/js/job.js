// A search in the background: the page is renewed when there is something new to see.

const ASK_MS = 900;

const pause = (ms) => new Promise((resolve) => setTimeout(resolve, ms));

// Renews the block if the search has got further than `seen`; returns what is now shown.
async function renew(block, seen) {
  const told = await fetch(block.dataset.job);
  if (told.status === 404) location.reload();  // started anew since: the page says so itself
  if (!told.ok) return seen;
  const { version, seconds } = await told.json();
  const clock = block.querySelector("[data-seconds]");
  if (clock) clock.textContent = seconds;
  if (version === seen) return seen;
  const page = await (await fetch(location.href)).text();
  const fresh = new DOMParser().parseFromString(page, "text/html").querySelector("[data-job]");
  if (fresh) block.replaceWith(fresh);
  else location.reload();  // nothing is waited for any more: the page itself has come
  return version;
}

async function watch() {
  let seen = null;
  for (;;) {
    const block = document.querySelector("[data-job]");
    if (!block || block.dataset.over === "yes") return;
    await pause(ASK_MS);
    try {
      seen = await renew(block, seen);
    } catch {
      // Out of reach for a moment, as a phone at the edge of the network is: ask again.
    }
  }
}

watch();
