// The site without a network, once it was visited. From disk there is nothing to do; in the preview
// nothing may be kept, as it changes with every save.

/** This script's own tag: it stands in js/ of the site, and says whether anything may be kept. */
const OWN_TAG = document.currentScript;

export function keepForOffline() {
  if (!/^https?:$/.test(location.protocol) || !(OWN_TAG instanceof HTMLScriptElement)) return;
  const offline = "offline" in OWN_TAG.dataset;
  // From disk browsers refuse a manifest, and say so; that is why no page names it by itself.
  if (offline) document.head.append(manifest(new URL("../manifest.webmanifest", OWN_TAG.src).href));
  if (!("serviceWorker" in navigator)) return;
  const worker = new URL("../sw.js", OWN_TAG.src).href;
  // What is on the page goes first.
  addEventListener("load", () => {
    (offline ? begin(worker) : stop(worker)).catch(() => {
      // Private windows and some settings refuse: the pages work as long as there is a network.
    });
  });
}

/** @param {string} address */
function manifest(address) {
  return Object.assign(document.createElement("link"), { rel: "manifest", href: address });
}

/**
 * The address for hosts that ask for such to be vouched for (Trusted Types): it is our own.
 * @param {string} worker
 */
function trusted(worker) {
  if (!("trustedTypes" in globalThis)) return worker;
  const rule = { createScriptURL: (address) => address };
  return globalThis.trustedTypes.createPolicy("offline", rule).createScriptURL(worker);
}

/** @param {string} worker */
async function begin(worker) {
  const found = await navigator.serviceWorker.register(trusted(worker), { updateViaCache: "none" });
  takeOver(found.waiting);
  takeOver(found.installing);
  found.addEventListener("updatefound", () => takeOver(found.installing));
}

/** Milliseconds for which a page stays before the next worker takes over. */
const QUIET = 1000;

/**
 * A worker takes the place of the one before once it is ready, this page has come whole, and nobody is
 * on the way to another: a page that is asked for while workers change may never come (Chromium).
 * @param {ServiceWorker | null} worker
 */
function takeOver(worker) {
  const go = () => {
    if (worker?.state !== "installed") return;
    const later = setTimeout(() => worker.postMessage("take over"), QUIET);
    addEventListener("beforeunload", () => clearTimeout(later), { once: true });
  };
  worker?.addEventListener("statechange", go);
  go();
}

/** @param {string} worker */
async function stop(worker) {
  const found = await navigator.serviceWorker.getRegistration(new URL(".", worker).href);
  await found?.unregister();
}
