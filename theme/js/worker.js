// Runs between the pages and the host: what a site has given stays to be had without it.
//
// The build puts in front of this what the site is made of: BUILD.key stands for all of it, and
// BUILD.files tells of each file by which bytes it is known. A store holds files of one build alone,
// each looked at before it goes in; so pages are never shown with styles or scripts of another build.

/** @type {{ key: string, files: Record<string, string>, first: string[] }} */
const build = self.BUILD;
const SCOPE = self.registration.scope;
const STORES = `roundproof:${SCOPE} `;
const STORE = STORES + build.key;
/** Milliseconds after which a page is taken from the store, if it is there. */
const PATIENCE = 3000;

/** Windows whose page is of this build, as far as the worker saw it: their files are too. All others
 * (a page of a newer build, or one from before the worker began) get theirs from the host.
 * @type {Set<string>} */
const ours = new Set();

self.addEventListener("install", (event) => {
  event.waitUntil(takeIn());
});

// Taking over ends what the worker before is still about, so a page says when it has come whole.
self.addEventListener("message", (event) => {
  if (event.data === "take over") self.skipWaiting();
});

self.addEventListener("activate", (event) => {
  event.waitUntil(leaveOthers().then(() => self.clients.claim()));
});

self.addEventListener("fetch", (event) => {
  const name = nameOf(event.request);
  if (name === null) return;
  if (event.request.mode === "navigate") {
    event.respondWith(page(name, event.request, event.resultingClientId));
  } else {
    event.respondWith(file(name, event.request, ours.has(event.clientId)));
  }
});

/**
 * The name of a file within the site; null for what is none of the worker's business.
 * @param {Request} request
 * @returns {string | null}
 */
function nameOf(request) {
  const url = new URL(request.url);
  url.search = url.hash = "";
  if (request.method !== "GET" || !url.href.startsWith(SCOPE)) return null;
  const name = decodeURI(url.href.slice(SCOPE.length));
  return name === "" || name.endsWith("/") ? `${name}index.html` : name;
}

/**
 * From the host as it is now, not as the browser may remember it from an earlier build.
 * @param {string} url
 */
async function fromHost(url) {
  return whole(await fetch(url, { cache: "no-cache" }));
}

/** What every reader may need, and whatever this reader had in the store before. */
async function takeIn() {
  const store = await caches.open(STORE);
  const names = new Set([...build.first, ...(await namesBefore())]);
  for (const name of names) {
    if (isKnown(name) && !(await store.match(addressOf(name)))) await take(name, store);
  }
}

/** @returns {Promise<string[]>} */
async function namesBefore() {
  const names = [];
  for (const other of await otherStores()) {
    for (const request of await (await caches.open(other)).keys()) {
      names.push(nameOf(request) ?? "");
    }
  }
  return names;
}

/** @returns {Promise<string[]>} */
async function otherStores() {
  return (await caches.keys()).filter((name) => name.startsWith(STORES) && name !== STORE);
}

/**
 * Put a file of this build into the store: as another store has it, or from the host. Fails where
 * the host has something else; the worker is then not installed, and the browser tries again later.
 * @param {string} name
 * @param {Cache} store
 */
async function take(name, store) {
  for (const other of await otherStores()) {
    const had = await (await caches.open(other)).match(addressOf(name));
    if (had && (await isOfThisBuild(name, had))) return store.put(addressOf(name), had);
  }
  const answer = await fromHost(addressOf(name));
  if (!(await isOfThisBuild(name, answer))) throw new Error(`${name} is of another build`);
  return store.put(addressOf(name), answer);
}

/** The stores of builds before this one; one that came after is being filled. */
async function leaveOthers() {
  const names = (await caches.keys()).filter((name) => name.startsWith(STORES));
  for (const other of names.slice(0, names.indexOf(STORE))) await caches.delete(other);
}

/**
 * A page: from the host, if it answers in time; else as it is in the store.
 * @param {string} name
 * @param {Request} request
 * @param {string} client
 */
async function page(name, request, client) {
  const kept = await keptAs(name);
  const asked = fromHost(request.url);
  try {
    const answer = await (kept ? inTime(asked) : asked);
    if (await isOfThisBuild(name, answer)) {
      ours.add(client);
      await keep(name, answer);
    }
    return answer;
  } catch {
    asked.catch(() => {}); // it may still fail after it was too late
    ours.add(client);
    return kept ?? (await keptAs("404.html")) ?? Response.error();
  }
}

/**
 * What a page is made of: as it is in the store, else from the host; the other way round for pages
 * that may be of another build.
 * @param {string} name
 * @param {Request} request
 * @param {boolean} isOurs
 */
async function file(name, request, isOurs) {
  const kept = await keptAs(name);
  if (kept && isOurs) return kept;
  const asked = fromHost(request.url);
  const answer = await (kept ? asked.catch(() => kept) : asked);
  if (await isOfThisBuild(name, answer)) await keep(name, answer);
  return answer;
}

/**
 * @param {string} name
 * @returns {Promise<Response | undefined>}
 */
function keptAs(name) {
  return caches.match(addressOf(name), { cacheName: STORE });
}

/**
 * @param {string} name
 * @param {Response} answer
 */
async function keep(name, answer) {
  try {
    // Once the next worker has thrown the store away, nothing brings it back.
    if (await caches.has(STORE)) await (await caches.open(STORE)).put(addressOf(name), answer.clone());
  } catch {
    // No room is left: the page is there all the same, only not without the host.
  }
}

/** @param {string} name */
function isKnown(name) {
  return Object.hasOwn(build.files, name);
}

/** @param {string} name */
function addressOf(name) {
  return SCOPE + encodeURI(name);
}

/**
 * An answer with all of its body here. Its own may have come by a way that a page is not given; and
 * a window that remembers it for a while would not ask the worker of the next build.
 * @param {Response} answer
 */
async function whole(answer) {
  const headers = new Headers(answer.headers);
  headers.delete("content-encoding");
  headers.delete("content-length");
  headers.set("cache-control", "no-cache");
  const body = await answer.arrayBuffer();
  return new Response(body, { status: answer.status, statusText: answer.statusText, headers });
}

/**
 * @param {string} name
 * @param {Response} answer
 */
async function isOfThisBuild(name, answer) {
  if (!answer.ok || !isKnown(name)) return false;
  const sum = await crypto.subtle.digest("SHA-256", await answer.clone().arrayBuffer());
  const hex = Array.from(new Uint8Array(sum), (byte) => byte.toString(16).padStart(2, "0"));
  return hex.join("").startsWith(build.files[name]);
}

/**
 * @template T
 * @param {Promise<T>} asked
 * @returns {Promise<T>}
 */
function inTime(asked) {
  return new Promise((resolve, reject) => {
    setTimeout(() => reject(new Error("too late")), PATIENCE);
    asked.then(resolve, reject);
  });
}
