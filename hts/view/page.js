// Shows what has changed without losing the place, opens reasons where they are asked for, and
// says when the figures are old. Nothing here sends anything but questions.
"use strict";
(() => {
  const page = document.documentElement.dataset;
  const gone = document.getElementById("gone");
  const every = Number(page.every) || 300;
  let state = page.state, missed = 0, lost = null, busy = false;

  const clock = () => new Date().toLocaleTimeString();
  const opened = (section) => [...section.querySelectorAll("details[open][id]")].map((d) => d.id);

  // Whoever has selected something is about to copy it.
  const selecting = (section) => {
    const chosen = document.getSelection();
    return !!chosen && !chosen.isCollapsed && section.contains(chosen.anchorNode);
  };

  function exchange(next) {
    const old = [...document.querySelectorAll("[data-digest]")];
    const fresh = [...next.querySelectorAll("[data-digest]")];
    if (old.map((s) => s.id).join() !== fresh.map((s) => s.id).join()) { location.reload(); return true; }
    let whole = true;
    fresh.forEach((section, at) => {
      const here = old[at];
      if (here.dataset.digest === section.dataset.digest) return;
      if (selecting(here)) { whole = false; return; }
      const open = opened(here), scroll = here.scrollTop;
      const focus = here.contains(document.activeElement) ? document.activeElement.id || document.activeElement.getAttribute("href") : null;
      const put = document.importNode(section, true);
      here.replaceWith(put);
      open.forEach((id) => { const d = document.getElementById(id); if (d) d.open = true; });
      put.scrollTop = scroll;
      moments(put);
      if (focus) [...put.querySelectorAll("[id],[href]")].find((e) => e.id === focus || e.getAttribute("href") === focus)?.focus({ preventScroll: true });
    });
    document.title = next.title;
    return whole;
  }

  async function ask() {
    if (busy || document.hidden) return;
    busy = true;
    try {
      const said = await fetch(page.ask, { cache: "no-store", signal: AbortSignal.timeout(15000) });
      if (!said.ok) throw new Error(said.status);
      const now = (await said.text()).trim();
      if (now !== state) {
        const answer = await fetch(location.href, { cache: "no-store" });
        // What stands at the foot of a printed sheet. It is taken out, for a style is only let in
        // with the word of the page that is shown.
        let printed = "";
        const text = (await answer.text()).replace(/<style id="foot"[^>]*>([^<]*)<\/style>/, (_, style) => { printed = style; return ""; });
        const next = new DOMParser().parseFromString(text, "text/html");
        const before = alarms();
        const foot = document.getElementById("foot");
        if (foot && foot.textContent !== printed) foot.textContent = printed;
        if (exchange(next)) state = next.documentElement.dataset.state || now;
        sound(before);
      }
      missed = 0; lost = null; gone.hidden = true;
      document.body.classList.remove("old");
    } catch (error) {
      if (++missed > 3) {
        lost = lost || clock();
        gone.textContent = "NOT CONNECTED since " + lost + ": what stands here is old. Is hts view still running?";
        gone.hidden = false;
        document.body.classList.add("old");
      }
    } finally { busy = false; }
  }

  const alarms = () => new Set([...document.querySelectorAll("[data-alarm]")].map((a) => a.dataset.alarm));
  let player = null;
  function beep() {
    if (!player) return;
    [0, 0.35, 0.7].forEach((after) => {
      const tone = player.createOscillator();
      tone.frequency.value = 880;
      tone.connect(player.destination);
      tone.start(player.currentTime + after);
      tone.stop(player.currentTime + after + 0.2);
    });
  }
  function sound(before) {
    if ([...alarms()].some((a) => !before.has(a))) beep();
  }

  document.addEventListener("click", (event) => {
    const choice = event.target.closest("button[data-sound]");
    if (choice) {
      player = player ? (player.close(), null) : new AudioContext();
      choice.setAttribute("aria-pressed", String(!!player));
      choice.textContent = player ? "Sound is on" : "Sound is off";
      beep();
      return;
    }
    const link = event.target.closest('a[href^="#why-"]');
    const reason = link && document.getElementById(link.getAttribute("href").slice(1));
    const box = document.getElementById("reason");
    if (!reason || !box) return;
    event.preventDefault();
    const copy = reason.cloneNode(true);
    copy.removeAttribute("id");
    copy.open = true;
    box.querySelector("div").replaceChildren(copy);
    box.showModal();
  });

  // The slider of time takes the place of the strip of stages.
  function showMoment(slider) {
    const chosen = Number(slider.value);
    [...slider.closest("[data-moments]").querySelectorAll("[data-moment]")].forEach((drawn, at) => {
      drawn.hidden = at !== chosen;
      if (at === chosen) slider.setAttribute("aria-valuetext", drawn.dataset.moment);
    });
  }
  function moments(within) {
    within.querySelectorAll("[data-moments]").forEach((box) => {
      box.hidden = false;
      box.parentElement.querySelectorAll("[data-strip]").forEach((strip) => { strip.hidden = true; });
      showMoment(box.querySelector("input"));
    });
  }
  document.addEventListener("input", (event) => {
    if (event.target.closest("[data-moments]")) showMoment(event.target);
  });
  moments(document);

  setInterval(ask, every);
  document.addEventListener("visibilitychange", ask);
})();
