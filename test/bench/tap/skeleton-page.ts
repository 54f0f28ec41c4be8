import { h, render } from "preact";
import { useState } from "preact/hooks";

/** The record to be written each time, with ids of its own; and the words of the screen. Given by the server. */
type Given = { record: Record<string, unknown>; codes: string[]; keep: string; said: string };

/**
 * The least page that does the job: three codes, one button, one strict write of the record that the panel writes,
 * into the same stores with the same indexes. It makes no hash, keeps no draft, checks nothing and sends nothing.
 */
function open(): Promise<IDBDatabase> {
  return new Promise((done, failed) => {
    const request = indexedDB.open("skeleton");
    request.onupgradeneeded = () => {
      const events = request.result.createObjectStore("events", { keyPath: "id" });
      events.createIndex("place", ["stream", "device", "seq"], { unique: true });
      events.createIndex("sent", ["sent", "stream", "seq"]);
      events.createIndex("mark", "mark", { unique: true });
    };
    request.onsuccess = () => done(request.result);
    request.onerror = () => failed(request.error);
  });
}

const { record, codes, keep, said } = (await (await fetch("/given.json")).json()) as Given;
const database = await open();
let seq = 0;

function write(): Promise<void> {
  return new Promise((done, failed) => {
    seq += 1;
    const transaction = database.transaction("events", "readwrite", { durability: "strict" });
    transaction.oncomplete = () => done();
    transaction.onabort = () => failed(transaction.error);
    const own = { ...record, id: crypto.randomUUID(), seq, mark: `${String(record.mark)} ${seq}` };
    transaction.objectStore("events").add(own);
  });
}

function Page() {
  const [picked, setPicked] = useState<string | null>(null);
  const [kept, setKept] = useState(false);
  const pick = (code: string): void => {
    setPicked(code);
    setKept(false);
  };
  if (kept) return h("main", {}, h("h1", {}, said), h("button", { type: "button", onClick: () => pick("") }, "Again"));
  return h(
    "main",
    {},
    h("p", {}, picked),
    ...codes.map((code) => h("button", { type: "button", onClick: () => pick(code) }, code)),
    h("button", { type: "button", onClick: () => void write().then(() => setKept(true)) }, keep),
  );
}

render(h(Page, {}), document.body);
