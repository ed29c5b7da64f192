// Keeps the screen lit while somebody works, if the device allows: hands with yarn in them cannot wake it.

import { keep, recalled } from "./store.js";

/** Milliseconds without a touch after which the screen may go dark after all. */
const LONG = 30 * 60_000;

/** @param {Keeping} keeping */
export function awakeWhileWorking(keeping) {
  const label = document.querySelector("#keeping .awake");
  if (!label || !("wakeLock" in navigator)) return;
  const box = label.querySelector("input");
  label.hidden = false;
  box.checked = recalled("awake") !== false;
  let lock = null;
  let timer = 0;

  async function hold() {
    clearTimeout(timer);
    const working = box.checked && keeping.here() && document.visibilityState === "visible";
    if (!working) return release();
    timer = setTimeout(release, LONG);
    if (lock && !lock.released) return undefined;
    try {
      lock = await navigator.wakeLock.request("screen");
    } catch {
      lock = null; // refused, on a low battery for one: the work goes on as without
    }
    return undefined;
  }

  function release() {
    lock?.release();
    lock = null;
  }

  box.addEventListener("change", () => {
    keep("awake", box.checked);
    hold();
  });
  // A browser lets go of the screen whenever the page is out of sight.
  document.addEventListener("visibilitychange", hold);
  document.addEventListener("pointerdown", hold);
  keeping.told.push(hold);
}
