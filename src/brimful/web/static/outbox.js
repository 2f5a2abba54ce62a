// What is noted on this page waits here until the server has it, and is sent once: each entry gets its id here, so that
// sending it again does no harm. Without this script the same forms are sent by their buttons.
"use strict";
{
  const AT_ONCE = 100, PATIENCE_MS = 20000, FIRST_WAIT_MS = 1000, LONGEST_WAIT_MS = 10000;
  const NAME = "brimful-outbox";

  // Where entries wait: the browser's database, or else its simple store, or else, told so, this page alone.
  const opened = new Promise((done) => {
    try {
      const asked = indexedDB.open(NAME, 1);
      asked.onupgradeneeded = () => asked.result.createObjectStore(NAME, { keyPath: "id" });
      asked.onsuccess = () => done(asked.result);
      asked.onerror = asked.onblocked = () => done(null);
      setTimeout(() => done(null), 3000);
    } catch { done(null); }
  });
  const inDatabase = async (way, work) => {
    const base = await opened;
    if (!base) throw new Error("no database");
    return new Promise((done, fail) => {
      const step = base.transaction(NAME, way);
      const asked = work(step.objectStore(NAME));
      step.oncomplete = () => done(asked.result);
      step.onerror = step.onabort = () => fail(step.error);
    });
  };
  const inPage = new Map();
  const simple = {
    all: () => Object.keys(localStorage).filter((key) => key.startsWith(`${NAME}:`)).map((key) => JSON.parse(localStorage[key])),
    keep: (item) => { localStorage[`${NAME}:${item.id}`] = JSON.stringify(item); },
    drop: (id) => localStorage.removeItem(`${NAME}:${id}`),
  };
  const tried = (work, otherwise) => { try { return work(); } catch { return otherwise; } };
  const all = async () => {
    const found = new Map(inPage);
    for (const item of tried(simple.all, [])) found.set(item.id, item);
    for (const item of await inDatabase("readonly", (table) => table.getAll()).catch(() => [])) found.set(item.id, item);
    return [...found.values()].sort((a, b) => a.at - b.at);
  };
  const keep = async (item) => {
    try { await inDatabase("readwrite", (table) => table.put(item)); } catch {
      try { simple.keep(item); } catch { inPage.set(item.id, item); }
    }
  };
  const drop = async (id) => {
    inPage.delete(id);
    tried(() => simple.drop(id));
    await inDatabase("readwrite", (table) => table.delete(id)).catch(() => null);
  };

  // Ids and times are made here; a page over plain http has no randomUUID.
  const newId = () => {
    const bytes = crypto.getRandomValues(new Uint8Array(16));
    bytes[6] = (bytes[6] & 15) | 64;
    bytes[8] = (bytes[8] & 63) | 128;
    const hex = [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
    return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join("-");
  };
  const moment = (when) => {
    const ahead = -when.getTimezoneOffset(), two = (number) => String(Math.floor(number)).padStart(2, "0");
    const local = new Date(when.getTime() + ahead * 60000).toISOString().slice(0, 23);
    return `${local}${ahead < 0 ? "-" : "+"}${two(Math.abs(ahead) / 60)}:${two(Math.abs(ahead) % 60)}`;
  };

  // Who notes is remembered on this phone.
  const whoever = () => tried(() => localStorage["brimful-by"], "") ?? "";
  const fill = () => {
    for (const field of document.querySelectorAll(".note [name=by]")) field.value = field.defaultValue = whoever();
    for (const one of document.querySelectorAll("[data-plain-http]")) one.hidden = isSecureContext;
  };
  document.addEventListener("input", (event) => {
    if (event.target.matches(".note [name=by]")) tried(() => { localStorage["brimful-by"] = event.target.value; });
  });
  document.addEventListener("dressed", fill);

  // Write down: first kept, then told, then sent.
  const writeDown = async (wish, words) => {
    const item = { ...wish, id: newId(), home: document.body.dataset.home, at: Date.now() };
    await keep(item);
    noted = { item, words };
    await tell();
    send();
  };
  document.addEventListener("submit", (event) => {
    const form = event.target;
    if (!form.matches("form.note") || event.defaultPrevented) return;
    event.preventDefault();
    const data = new FormData(form, event.submitter ?? undefined);
    const said = data.getAll("said").map((one) => one.trim()).filter(Boolean).join(" ");
    if (!said) return;
    const by = (data.get("by") ?? whoever()).trim(), at = data.get("at");
    const place = data.get("place"), corrects = data.get("corrects") || null;
    writeDown({ said, place, by, corrects, made_at: moment(at ? new Date(at) : new Date()) });
    for (const field of form.querySelectorAll("[data-once]")) field.value = field.defaultValue = "";
  });

  // Send what waits, oldest first; whatever goes wrong, it goes on waiting.
  let busy = false, again = false, wait = FIRST_WAIT_MS, timer, trouble = null, token = null, noted = null, remarks = [];
  const send = async () => {
    if (busy) { again = true; return; }
    busy = true;
    clearTimeout(timer);
    try {
      do { again = false; await sendAll(); } while (again && trouble === null);
    } catch (error) { trouble = `Something went wrong on this page (${error.message}).`; }
    busy = false;
    await tell();
    if (trouble === null) wait = FIRST_WAIT_MS;
    else { timer = setTimeout(send, wait); wait = Math.min(LONGEST_WAIT_MS, wait * 1.5); }
  };
  const sendAll = async () => {
    trouble = null;
    const items = (await all()).filter((item) => !item.why);
    for (const home of new Set(items.map((item) => item.home))) {
      const mine = items.filter((item) => item.home === home);
      for (let at = 0; at < mine.length; at += AT_ONCE) {
        const failed = await sendSome(home, mine.slice(at, at + AT_ONCE));
        if (failed !== null) { trouble = failed; break; }
      }
    }
  };
  const sendSome = async (home, items) => {
    const list = items.map(({ id, made_at, place, by, said, corrects }) => ({ id, made_at, place, by, said, corrects }));
    let answer = await posted(home, list);
    if (answer?.status === 403) { token = null; answer = await posted(home, list); }
    if (answer === null) return "";
    if (answer.status === 401) return "Brimful asks for the pass phrase again: load the page anew and enter it.";
    if (answer.status === 404) return "Brimful no longer serves this plan.";
    const came = await answer.json().catch(() => null);
    if (!answer.ok || !Array.isArray(came?.entries)) return came?.words ?? `Brimful did not take them (${answer.status}).`;
    remarks = came.remarks;
    for (const one of came.entries) {
      const item = items.find((mine) => mine.id === one.id);
      if (!item) continue;
      if (one.outcome === "refused") await keep({ ...item, why: one.words });
      else await drop(item.id);
    }
    return null;
  };
  const posted = async (home, list) => {
    try {
      token ??= (await (await asked(`${home}entries/token`, {})).json()).token;
      const headers = { "Content-Type": "application/json", "X-Brimful-Token": token };
      return await asked(`${home}entries`, { method: "POST", headers, body: JSON.stringify(list) });
    } catch (error) { return error instanceof Response ? error : null; }
  };
  const asked = async (address, wish) => {
    const stop = new AbortController(), late = setTimeout(() => stop.abort(), PATIENCE_MS);
    try {
      const answer = await fetch(address, { ...wish, signal: stop.signal, cache: "no-store" });
      if (!wish.method && !answer.ok) throw answer;
      return answer;
    } finally { clearTimeout(late); }
  };

  // A strip at the foot of the page says what was noted, what waits, and what was not taken.
  const made = (name, words, more = {}) => Object.assign(document.createElement(name), { textContent: words, ...more });
  const button = (words, work) => {
    const one = made("button", words, { type: "button" });
    one.addEventListener("click", work);
    return one;
  };
  const tell = async () => {
    const items = await all(), waiting = items.filter((item) => !item.why), refused = items.filter((item) => item.why);
    const lines = [...refused.map(refusedLine), ...remarks.map((words) => made("p", `To mind: ${words}.`)), ...notedLine(refused)];
    if (waiting.length && trouble !== null) lines.push(made("p", waitingWords(waiting.length), { className: "waits" }));
    let strip = document.querySelector(".outbox");
    if (!strip) {
      strip = made("section", "", { className: "outbox", ariaLabel: "Notes of this phone" });
      strip.setAttribute("role", "status");
      document.body.append(strip);
    }
    if (strip.contains(document.activeElement) && document.activeElement.matches("input")) return;
    strip.replaceChildren(...lines);
    document.body.style.paddingBottom = lines.length ? `${strip.offsetHeight}px` : "";
  };
  const waitingWords = (count) => {
    const many = count === 1 ? "1 note waits" : `${count} notes wait`;
    const stay = isSecureContext && !inPage.size ? "" : " Keep this page open while there is no signal.";
    return `${many} here until the server is back.${stay} ${trouble}`.trim();
  };
  const notedLine = (refused) => {
    if (!noted || refused.some((item) => item.id === noted.item.id)) return [];
    const { item } = noted, line = made("p", noted.words ?? `Noted: ${item.said}${item.place ? `, ${item.place}` : ""}. `);
    const back = { place: item.place, by: item.by, said: "withdrawn", corrects: item.id };
    if (!noted.words) line.append(button("Undo", () => writeDown({ ...back, made_at: moment(new Date()) }, "Taken back.")));
    return [line];
  };
  const refusedLine = (item) => {
    const line = made("div", "", { className: "refused" });
    line.append(made("p", `Not taken, ${item.place || "the whole place"}: ${item.why}.`, { className: "bad" }));
    const words = made("input", "", { value: item.said, ariaLabel: "What you noted" });
    const once = async () => {
      words.blur();
      await keep({ ...item, id: newId(), said: words.value, why: undefined });
      await drop(item.id);
      await send();
    };
    line.append(words, button("Send again", once), button("Throw away", async () => { await drop(item.id); await tell(); }));
    return line;
  };

  // With a secure context pages that were seen can be opened again without a signal.
  const keepPages = async () => {
    const { home } = document.body.dataset;
    if (!isSecureContext || !home || !navigator.serviceWorker) return;
    await navigator.serviceWorker.register(`${home}sw.js`);
    const ready = await navigator.serviceWorker.ready;
    const parts = [...document.querySelectorAll("link[rel=stylesheet], script[src], main img")].map((one) => one.href || one.currentSrc || one.src);
    ready.active?.postMessage({ keep: [location.href, ...parts] });
  };

  fill();
  addEventListener("online", send);
  addEventListener("pageshow", send);
  document.addEventListener("visibilitychange", () => { if (!document.hidden) send(); });
  if (document.querySelector("form.note")) addEventListener("load", () => keepPages().catch(() => null));
}
