// Takes each payload as it stands into a text, an attribute, a link, and says which of them run.
async (payloads) => {
  const ran = new Set();
  window.payloadRan = (number) => ran.add(number);
  const places = [
    "<body>%", '<body><img alt="%">', "<body><p title='%'>a</p>", '<body><a href="%">a</a>',
    "<body><textarea>%</textarea>", "<title>%</title><body>",
  ];
  const kinds = [
    "mouseover", "click", "focus", "mouseenter", "error", "load", "keydown", "input",
    "pointerover", "animationstart", "toggle",
  ];
  const use = (frame) => {
    try {
      for (const e of frame.contentDocument.querySelectorAll("*")) {
        for (const kind of kinds) {
          if (e.getAttribute(`on${kind}`)) e.dispatchEvent(new Event(kind));
        }
        if (e.localName === "a" && /^\s*java/i.test(e.getAttribute("href") ?? "")) e.click();
      }
    } catch {
      // A frame that has gone elsewhere cannot be looked into.
    }
  };
  const STEP = 25;
  for (let start = 0; start < payloads.length; start += STEP) {
    const frames = [];
    for (let number = start; number < Math.min(start + STEP, payloads.length); number++) {
      const hook = `<script>for (const name of ["alert", "confirm", "prompt", "print"]) {
        window[name] = () => parent.payloadRan(${number});
      }</script>`;
      for (const place of places) {
        const frame = document.createElement("iframe");
        frame.srcdoc = hook + place.replace("%", () => payloads[number]);
        frame.onload = () => use(frame);
        document.body.append(frame);
        frames.push(frame);
      }
    }
    for (let wait = 0; wait < 40 && frames.some((_, n) => !ran.has(start + Math.floor(n / places.length))); wait++) {
      await new Promise((then) => setTimeout(then, 50));
    }
    for (const frame of frames) frame.remove();
  }
  return [...ran];
}
