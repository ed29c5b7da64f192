// Only the preview serves this: it waits for word that the page changed and opens it again, at the
// round that was being looked at.

(() => {
  "use strict";

  const own = document.currentScript.dataset;
  const KEPT = "roundproof:preview";
  let waiting = null;
  let ended = null;
  let reloading = false;

  function listen() {
    if (waiting || document.hidden) {
      return;
    }
    const asked = new URLSearchParams({ page: own.page, state: own.state });
    waiting = new EventSource(`${own.root}/preview/changes?${asked}`);
    waiting.addEventListener("changed", again);
    waiting.addEventListener("open", () => tell(""));
    waiting.addEventListener("error", () => tell("The preview has ended: this page no longer follows what you write."));
  }

  // A page out of sight holds no connection: a browser has only a few for one host.
  function rest() {
    waiting?.close();
    waiting = null;
  }

  function leave() {
    rest();
    if (!reloading) {
      history.scrollRestoration = "auto";
    }
  }

  function again() {
    rest();
    reloading = true;
    keepView();
    history.scrollRestoration = "manual"; // or the browser would scroll after us
    location.reload();
  }

  function tell(words) {
    if (!words) {
      ended?.remove();
      ended = null;
    } else if (!ended) {
      ended = document.createElement("p");
      ended.className = "ended";
      ended.setAttribute("role", "status");
      ended.textContent = words;
      document.body.append(ended);
    }
  }

  // The place is kept by what stands at the top of the view, as what is above it may have grown.
  function keepView() {
    const seen = [...document.querySelectorAll("main [id]")].find((each) => {
      const place = each.getBoundingClientRect();
      return place.height > 0 && place.top >= 0 && place.top < innerHeight;
    });
    const view = { page: own.page, y: scrollY, id: seen?.id, top: seen?.getBoundingClientRect().top };
    try {
      sessionStorage.setItem(KEPT, JSON.stringify(view));
    } catch {
      // Nothing can be kept: the page opens at its top.
    }
  }

  function takenView() {
    try {
      const view = JSON.parse(sessionStorage.getItem(KEPT));
      sessionStorage.removeItem(KEPT);
      return view?.page === own.page ? view : null;
    } catch {
      return null;
    }
  }

  function show(view) {
    const seen = view.id && document.getElementById(view.id);
    const y = seen ? scrollY + seen.getBoundingClientRect().top - view.top : view.y;
    scrollTo({ top: y, behavior: "instant" });
  }

  const view = takenView();
  if (view) {
    show(view);
    addEventListener("load", () => show(view)); // letters and pictures are there now
  }
  addEventListener("pagehide", leave);
  addEventListener("pageshow", listen);
  document.addEventListener("visibilitychange", () => (document.hidden ? rest() : listen()));
  listen();
})();
