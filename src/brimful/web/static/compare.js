// Without this the page of two plans is loaded anew while one is being worked out. With it the figures come in place.
"use strict";

const doing = () => [...document.querySelectorAll("[data-work]")];

const fetched = async (address, kind) => {
  const answer = await fetch(address, { headers: { Accept: kind } });
  return answer.ok ? answer : null;
};

// Whoever stands on a link stays on it.
const put = (fresh) => {
  const at = document.activeElement?.getAttribute("href");
  document.querySelector("main").replaceWith(document.adoptNode(fresh.querySelector("main")));
  if (at) document.querySelector(`main [href="${CSS.escape(at)}"]`)?.focus({ preventScroll: true });
};

const follow = async () => {
  if (!document.hidden) {
    try {
      const now = await Promise.all(doing().map(async (one) => {
        const answer = await fetched(one.dataset.work, "application/json");
        return answer ? (await answer.json()).doing !== one.dataset.doing : false;
      }));
      const answer = now.some(Boolean) ? await fetched(location.href, "text/html") : null;
      if (answer) put(new DOMParser().parseFromString(await answer.text(), "text/html"));
    } catch { /* nobody answers: what stands here stays, and is asked for again */ }
  }
  if (doing().some((one) => one.dataset.doing)) setTimeout(follow, 1000);
};
follow();
