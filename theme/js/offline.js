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

/** @param {string} worker */
async function begin(worker) {
  const found = await navigator.serviceWorker.register(worker, { updateViaCache: "none" });
  letTakeOver(found.waiting);
  found.addEventListener("updatefound", () => {
    const coming = found.installing;
    coming?.addEventListener("statechange", () => letTakeOver(found.waiting));
  });
}

/**
 * A worker that is ready takes the place of the one before, now that this page has come whole.
 * @param {ServiceWorker | null} ready
 */
function letTakeOver(ready) {
  ready?.postMessage("take over");
}

/** @param {string} worker */
async function stop(worker) {
  const found = await navigator.serviceWorker.getRegistration(new URL(".", worker).href);
  await found?.unregister();
}
