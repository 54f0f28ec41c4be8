import type { BalanceLine } from "../model/balance-line.ts";
import { type BalanceStream, balanceStream } from "../model/balance-reading.ts";
import { Problem, type ProblemData, problem } from "../model/problem.ts";
import type { BalanceSettings } from "./balance-settings.ts";
import { type SerialPort, serialOf } from "./serial.ts";

const tickMs = 250;
/** Ticks without a byte after which the next one begins a line. Two: after a pause of the page itself, bytes may wait. */
const quietTicks = 2;
/** Ticks without a line that can be read after which the person is told. */
const patienceTicks = 24;

export type BalanceState = {
  link: "closed" | "opening" | "open";
  /** Why it is closed, or what keeps it from being read. */
  problem: ProblemData | null;
  /** The last line that ended since it was opened. */
  last: BalanceLine | null;
  /** There is a port that this page may open without asking, or one was open. */
  known: boolean;
};

/** Whoever waits for readings: every line, and that the wait is over because somebody else waits or the link closed. */
export type Waiting = { line: (line: BalanceLine) => void; over: () => void };

type Reader = ReadableStreamDefaultReader<Uint8Array>;
type Open = { port: SerialPort; reader: Reader | null; stop: () => void; reading: Promise<void> };

/** Does this browser let a page read a balance at all? */
export const offersBalance = (): boolean => serialOf() !== null;

/** The one connection of this page to a balance. */
export class BalanceLink {
  #state: BalanceState = { link: "closed", problem: null, last: null, known: false };
  #listeners = new Set<() => void>();
  #waiting: Waiting | null = null;
  #open: Open | null = null;
  /** The port that was open last: it is opened again without asking. */
  #last: SerialPort | null = null;
  #doing: Promise<void> = Promise.resolve();

  state(): BalanceState {
    return this.#state;
  }

  /** Calls `listener` after every change of the state; returns the way to stop that. */
  onChange(listener: () => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  /** Finds out whether the browser already lets this page open a port. */
  async look(): Promise<void> {
    const ports = await serialOf()
      ?.getPorts()
      .catch(() => []);
    if (ports && ports.length > 0) this.#show({ known: true });
  }

  /** Gives every line that ends from now on to one who waits; returns the way to stop. Who waited before is let go. */
  wait(waiting: Waiting): () => void {
    const before = this.#waiting;
    this.#waiting = waiting;
    before?.over();
    return () => {
      if (this.#waiting === waiting) this.#waiting = null;
    };
  }

  /**
   * Opens the port: the last one, the only one that this page may open, or the one that the person picks in the
   * browser's window. To be called while a press is handled. What goes wrong is in the state; it never throws.
   *
   * Takes    another: let the person pick, whatever there is
   */
  connect(settings: BalanceSettings, another = false): Promise<void> {
    return this.#after(() => this.#connect(settings, another));
  }

  async disconnect(): Promise<void> {
    return this.#after(async () => {
      await this.#close();
      this.#letGo({ link: "closed", problem: null });
    });
  }

  /** One thing after the other: a port that is opening cannot be opened with other settings. */
  #after(next: () => Promise<void>): Promise<void> {
    this.#doing = this.#doing.then(next);
    return this.#doing;
  }

  async #connect(settings: BalanceSettings, another: boolean): Promise<void> {
    await this.#close();
    this.#show({ link: "opening", problem: null, last: null });
    try {
      const port = (another ? null : this.#last) ?? (await pick(another));
      await port.open({
        baudRate: settings.baud,
        dataBits: settings.dataBits,
        parity: settings.parity,
        stopBits: settings.stopBits,
      });
      this.#begin(port, settings);
    } catch (thrown) {
      this.#last = null;
      this.#letGo({ link: "closed", problem: openProblem(thrown) });
    }
  }

  #begin(port: SerialPort, settings: BalanceSettings): void {
    const stream = balanceStream(settings);
    const patience = new Patience(stream, (code) => this.#show({ problem: problem(code).problem }));
    const timer = setInterval(() => patience.tick(), tickMs);
    const open: Open = { port, reader: null, stop: () => clearInterval(timer), reading: Promise.resolve() };
    this.#open = open;
    this.#last = port;
    this.#show({ link: "open", known: true });
    open.reading = this.#read(open, stream, patience);
  }

  /** Reads until the port is lost or closed by hand. */
  async #read(open: Open, stream: BalanceStream, patience: Patience): Promise<void> {
    let from = open.port.readable;
    while (from) {
      open.reader = from.getReader();
      let next = await nextOf(open.reader);
      while (next?.value && this.#open === open) {
        patience.came();
        this.#tell(stream.take(next.value), patience);
        next = await nextOf(open.reader);
      }
      open.reader.releaseLock();
      if (next || this.#open !== open) break;
      // a byte that came wrong puts a new stream in its place and reading goes on; a lost port has none
      stream.broken();
      from = open.port.readable === from ? null : open.port.readable;
    }
    if (this.#open !== open) return;
    this.#open = null;
    open.stop();
    this.#tell(stream.end(), patience);
    await open.port.close().catch(() => undefined);
    this.#letGo({ link: "closed", problem: problem("balance/lost").problem });
  }

  #tell(lines: readonly BalanceLine[], patience: Patience): void {
    for (const line of lines) {
      const readable = line.kind === "reading" || !["cut", "noise", "too-long"].includes(line.why);
      if (readable) patience.read();
      this.#show({ last: line, ...(readable ? { problem: null } : {}) });
      this.#waiting?.line(line);
    }
  }

  async #close(): Promise<void> {
    const open = this.#open;
    if (!open) return;
    this.#open = null;
    open.stop();
    await open.reader?.cancel().catch(() => undefined);
    await open.reading;
    await open.port.close().catch(() => undefined);
  }

  #letGo(change: Partial<BalanceState>): void {
    const before = this.#waiting;
    this.#waiting = null;
    this.#show(change);
    before?.over();
  }

  #show(change: Partial<BalanceState>): void {
    this.#state = { ...this.#state, ...change };
    for (const listener of this.#listeners) listener();
  }
}

type Hindered = "balance/nothing-yet" | "balance/not-readable";

/** Counts ticks: when it is quiet, and when the person has to be told that nothing can be read. */
class Patience {
  #silent = 0;
  #unread = 0;
  #bytes = false;
  #everRead = false;
  readonly #stream: BalanceStream;
  readonly #onHindered: (code: Hindered) => void;

  constructor(stream: BalanceStream, onHindered: (code: Hindered) => void) {
    this.#stream = stream;
    this.#onHindered = onHindered;
  }

  came(): void {
    this.#silent = 0;
    this.#bytes = true;
  }

  read(): void {
    this.#unread = 0;
    this.#bytes = false;
    this.#everRead = true;
  }

  tick(): void {
    this.#silent++;
    if (this.#silent === quietTicks) this.#stream.quiet();
    this.#unread++;
    if (this.#unread % patienceTicks !== 0) return;
    if (this.#bytes) this.#onHindered("balance/not-readable");
    // silence is no fault once it was read: many send only when their key is pressed
    else if (!this.#everRead) this.#onHindered("balance/nothing-yet");
    this.#bytes = false;
  }
}

/** The next bytes, or the end of the stream; null when the stream failed. */
const nextOf = (reader: Reader) => reader.read().catch(() => null);

/** The only port that this page may open without asking, or what the person picks. */
async function pick(another: boolean): Promise<SerialPort> {
  const serial = serialOf();
  if (!serial) throw problem("balance/not-offered");
  const ports = another ? [] : await serial.getPorts();
  const [only] = ports;
  return only && ports.length === 1 ? only : serial.requestPort();
}

/** What the browser throws when a port is picked or opened, as the Web Serial specification names it. */
function openProblem(thrown: unknown): ProblemData {
  if (thrown instanceof Problem) return thrown.problem;
  const name = thrown instanceof Error ? thrown.name : "";
  if (name === "NotFoundError") return problem("balance/none-chosen").problem;
  if (name === "SecurityError" || name === "NotAllowedError") return problem("balance/not-allowed").problem;
  return problem("balance/not-opened", { reason: thrown instanceof Error ? thrown.message : String(thrown) }).problem;
}
