// The questions: what is wrong with an answer, and what all of them come to, said while they are answered.
"use strict";

const form = document.querySelector(".questions");
const soFar = document.getElementById("so-far");
let turn = 0, waiting;

form.addEventListener("input", () => { clearTimeout(waiting); waiting = setTimeout(ask, 250); });

const ask = async () => {
  const mine = ++turn;
  const data = new URLSearchParams(new FormData(form));
  data.delete("token");
  const answer = await fetch(`/start/live?${data}`).catch(() => null);
  if (!answer?.ok || mine !== turn) return;
  const { problems, sentence } = await answer.json();
  for (const said of form.querySelectorAll(".live")) {
    const problem = problems[said.htmlFor.value.replace("q-", "")];
    const words = Object.assign(document.createElement("span"), { className: "said error" });
    if (problem) words.textContent = `${problem[0].toUpperCase()}${problem.slice(1)}${/[.?]$/.test(problem) ? "" : "."}`;
    said.replaceChildren(...(problem ? [words] : []));
  }
  soFar.hidden = !sentence;
  soFar.textContent = sentence;
};
