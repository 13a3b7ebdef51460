// A search in the background: the page is renewed when there is something new to see.

const ASK_MS = 900;

async function watch(version) {
  const block = document.querySelector("[data-job]");
  if (!block || block.dataset.over === "yes") return;
  await new Promise((resolve) => setTimeout(resolve, ASK_MS));
  const answer = await fetch(block.dataset.job).catch(() => null);
  const state = answer?.ok ? await answer.json() : null;
  if (state && state.version !== version) {
    const page = await (await fetch(location.href)).text();
    const fresh = new DOMParser().parseFromString(page, "text/html").querySelector("[data-job]");
    document.querySelector("[data-job]").replaceWith(fresh);
  }
  await watch(state?.version ?? version);
}

watch();
