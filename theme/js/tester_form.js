// Keeps the tester's form: what is written goes to the device as it is typed, and back at each opening;
// tells how much is filled in; saves and opens the file; begins again.

import { watch } from "./store.js";
import { addMore, fieldsOf, grow, keyOfBox, makeRoom } from "./tester_fields.js";
import { download, nameOf, readFile, textOf } from "./tester_file.js";
import { Answers } from "./tester_kept.js";
import { answersOf, reportOf } from "./tester_report.js";
import { ask, say, tellSums, tellTroubles } from "./tester_told.js";

const MOST_CORRECTIONS = 200;

/** Begin: show what is kept and listen. */
export function keepReport() {
  const form = document.getElementById("tester_form");
  if (form) new ReportForm(form).begin();
}

class ReportForm {
  /** @param {HTMLFormElement} form */
  constructor(form) {
    this.form = form;
    this.block = document.getElementById("your_report");
    addMore(form);
    this.fields = fieldsOf(form);
    this.answers = new Answers(form.dataset.version);
    this.isSaved = true;
  }

  begin() {
    const { form, block, answers } = this;
    block.hidden = false;
    form.querySelector(".unkept").hidden = true;
    form.querySelector(".kept").hidden = false;
    form.querySelector("[data-do=more]").parentElement.hidden = false;
    form.addEventListener("submit", (event) => event.preventDefault());
    for (const name of ["input", "change"]) form.addEventListener(name, (event) => this.typed(event.target));
    form.querySelector("[data-do=more]").addEventListener("click", () => this.addCorrection());
    block.querySelector("[data-do=save]").addEventListener("click", () => this.save());
    block.querySelector("[data-do=clear]").addEventListener("click", () => this.beginAgain());
    const file = block.querySelector("input[type=file]");
    file.addEventListener("change", () => {
      const [chosen] = file.files;
      if (chosen) void this.open(chosen);
      file.value = ""; // the same file can be chosen again
    });
    watch(answers.name, () => this.again());
    document.addEventListener("visibilitychange", () => this.again()); // from disk nothing tells
    addEventListener("beforeunload", (event) => {
      if (!answers.stays && !this.isSaved) event.preventDefault();
    });
    if (answers.isNew) this.takeOver();
    this.show();
    answers.stays = this.tries();
    this.tell();
  }

  /** Whether this browser keeps anything at all: to be told before somebody has written. */
  tries() {
    if (!this.answers.isNew || !this.answers.stays) return this.answers.stays;
    this.answers.write();
    return this.answers.stays;
  }

  /** The answers given in an older version, where this one has none yet. */
  takeOver() {
    const older = this.answers.older();
    if (!older) return;
    this.answers.replace({ ...this.fromAnswers(older), from: older.version || "without a number" });
  }

  /** @param {import("./tester_kept.js").Kept} older */
  fromAnswers(older) {
    const report = Object.create(null);
    const kept = Object.create(null);
    for (const [key, value] of Object.entries(older.answers)) {
      if (key.startsWith("=")) kept[key] = value;
      else if (this.fields.has(key) && !key.startsWith('["version"')) kept[key] = value;
      else if (!key.startsWith('["version"')) report[key] = value;
    }
    return this.settled(kept, report, older.version);
  }

  /** Answers without a field: those on rounds become corrections, the others are told. */
  settled(answers, others, version) {
    const rounds = Object.create(null);
    const left = [];
    for (const [key, value] of Object.entries(others)) {
      const path = pathOf(key);
      if (path?.[0] === "corrections") answers[key] = value;
      else if (path?.length === 4 && path[0] === "rounds") (rounds[`${path[1]} ${path[2]}`] ??= {})[path[3]] = value;
      else left.push([path?.join(" ") ?? key, String(value)]);
    }
    let at = roomNeeded(answers);
    for (const [where, { kind, read, said, instead }] of Object.entries(rounds)) {
      const parts = { where: `${where} in ${version}`, kind: kind || "remark", read, did: said, instead };
      for (const [part, value] of Object.entries(parts)) {
        if (value) answers[JSON.stringify(["corrections", at, part])] = value;
      }
      at += 1;
    }
    return { answers, left };
  }

  /** Another window may have written. */
  again() {
    this.answers.recall();
    this.show();
    this.tell();
  }

  /** @param {EventTarget} box in which something was written or chosen */
  typed(box) {
    const key = box instanceof Element ? keyOfBox(box) : "";
    const field = this.fields.get(key);
    if (!field) return;
    const { value } = field;
    this.answers.change([[key, String(value) === String(field.usual) ? null : value]]);
    this.isSaved = false;
    field.print();
    if (box.dataset.part) this.fields.get(keyOfBox(box.closest("li").querySelector("textarea[data-round]"))).print();
    this.tell();
  }

  /** Everything as it is kept. */
  show() {
    const { answers } = this.answers.record;
    if (makeRoom(this.form, roomNeeded(answers))) this.fields = fieldsOf(this.form);
    for (const [key, field] of this.fields) {
      const value = answers[key];
      field.show(value !== undefined && field.takes(value) ? value : field.usual);
    }
    for (const more of this.form.querySelectorAll(".kinds")) {
      if ([...more.querySelectorAll("[data-part]")].some((box) => box.value)) more.open = true;
      if (more.open) more.querySelectorAll("[data-part]").forEach(grow);
      // Its words are printed with the remark.
      this.fields.get(keyOfBox(more.closest("li").querySelector("textarea[data-round]"))).print();
    }
  }

  addCorrection() {
    const rows = this.form.querySelectorAll(".correction").length;
    makeRoom(this.form, rows + 1);
    this.fields = fieldsOf(this.form);
    document.getElementById(`f-correction-${rows}-where`).focus();
  }

  /** How much is filled in, and what goes wrong. */
  tell() {
    tellSums(this.form, this.fields);
    tellTroubles(document.getElementById("trouble_"), this.answers);
  }

  report() {
    const fields = [...this.fields.values()].map((field) => ({ path: field.path, value: field.value, unit: field.first.dataset.unit }));
    const { pattern, version } = this.form.dataset;
    const chosen = (key) => String(this.fields.get(key)?.value ?? "");
    return reportOf(fields, { pattern, version, weight: chosen("=weight") || "g", length: chosen("=length") || "cm" });
  }

  save() {
    const report = this.report();
    const name = nameOf(report);
    download(textOf(report), name);
    this.isSaved = true;
    const who = report.tester ? "" : " It does not say yet who you are: your name or number is asked for at the top.";
    this.say(`${name} is saved.${who}`);
  }

  /** @param {File} file */
  async open(file) {
    const { pattern, version } = this.form.dataset;
    const { report, wrong } = await readFile(file, pattern);
    if (!report) {
      this.say(wrong);
      return;
    }
    const written = Object.keys(this.answers.record.answers).filter((key) => !key.startsWith("=")).length;
    const take = () => this.take(file.name, report, version);
    if (written) ask(this.block, `${file.name} takes the place of what is written here. Your ticks stay.`, "Open it", take);
    else take();
  }

  take(name, report, version) {
    const others = typeof report.version === "string" ? report.version.slice(0, 20) : "another version";
    const takes = (key, value) => {
      const field = this.fields.get(key);
      if (field) return field.takes(value);
      const [list, at, part, ...deeper] = JSON.parse(key);
      const first = this.fields.get(JSON.stringify(["corrections", 0, part]));
      return list === "corrections" && at < MOST_CORRECTIONS && !deeper.length && Boolean(first?.takes(value));
    };
    const { answers, left, moved } = answersOf(report, takes, others);
    const kept = Object.entries(this.answers.record.answers).filter(([key]) => key.startsWith("="));
    const all = Object.assign(Object.create(null), Object.fromEntries(kept));
    for (const [key, value] of answers) all[key] = value;
    this.answers.replace({ answers: all, left });
    this.isSaved = this.answers.stays;
    this.show();
    this.tell();
    const words = [`${name} is opened.`];
    if (others !== version) words.push(`It is a report on version ${others}; this is ${version || "not numbered"}.`);
    if (moved) words.push(`Remarks on ${moved} of its rounds, which are not here, stand under Corrections.`);
    if (left.length) words.push("What has no place here is told at the top.");
    this.say(words.join(" "));
  }

  beginAgain() {
    const question =
      "Everything that is written, chosen and ticked on this page is taken off this device, that of older versions too. A file that you have saved stays.";
    ask(this.block, question, "Begin again", () => {
      this.answers.clear();
      this.isSaved = true;
      for (const more of this.form.querySelectorAll(".kinds")) more.open = false;
      this.show();
      this.tell();
      this.say("The form is empty.");
    });
  }

  /** @param {string} words of what was done */
  say(words) {
    say(this.block, words);
  }
}

/** How many corrections the answers have. */
function roomNeeded(answers) {
  const numbers = Object.keys(answers).map(pathOf).filter((path) => path?.[0] === "corrections").map((path) => Number(path[1]) + 1);
  return Math.min(Math.max(0, ...numbers.filter(Number.isInteger)), MOST_CORRECTIONS);
}

/** @param {string} key @returns {(string|number)[] | null} what is kept may be anything */
function pathOf(key) {
  try {
    const path = JSON.parse(key);
    return Array.isArray(path) ? path : null;
  } catch {
    return null;
  }
}
