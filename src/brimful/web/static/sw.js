// Keeps pages of one plan that were seen on this phone, to open them again where there is no signal. What is asked of
// the server is always asked first; nothing that is sent passes through here.
"use strict";

const SHELF = `brimful ${new URL(registration.scope).pathname}`;
const MOST = 300;

// Style and script are kept under their name alone: an older page finds the newest.
const place = (address) => {
  const url = new URL(address);
  const found = url.pathname.match(/^\/static\/[0-9a-f]{16}\/(.+)$/);
  return found ? `${url.origin}/static/${found[1]}` : url.origin + url.pathname + url.search;
};
const isPart = (address) => /^\/static\/|\/drawing\//.test(new URL(address).pathname);

const keep = async (address, answer) => {
  if (!answer.ok || answer.redirected) return;
  const shelf = await caches.open(SHELF);
  await shelf.put(place(address), answer);
  const there = await shelf.keys();
  for (const old of there.slice(0, Math.max(0, there.length - MOST))) await shelf.delete(old);
};
const kept = async (address) => {
  const shelf = await caches.open(SHELF);
  return (await shelf.match(place(address))) ?? (isPart(address) ? undefined : shelf.match(place(address), { ignoreSearch: true }));
};

addEventListener("install", () => skipWaiting());
addEventListener("activate", (event) => event.waitUntil(clients.claim()));
addEventListener("message", (event) => {
  const here = (event.data?.keep ?? []).filter((address) => new URL(address).origin === location.origin);
  event.waitUntil(Promise.all(here.map((address) => fetch(address).then((answer) => keep(address, answer)).catch(() => null))));
});
addEventListener("fetch", (event) => {
  const { request } = event;
  const mine = request.method === "GET" && new URL(request.url).origin === location.origin;
  if (mine && (request.mode === "navigate" || isPart(request.url))) event.respondWith(answered(event));
});
const answered = async (event) => {
  try {
    const answer = await fetch(event.request);
    event.waitUntil(keep(event.request.url, answer.clone()));
    return answer;
  } catch (error) {
    const page = await kept(event.request.url);
    if (page) return page;
    throw error;
  }
};
