import type { Serial, SerialPort } from "../../src/device/serial.ts";

/** A balance at the border of the browser: what it sends is said byte by byte, and it can be pulled off. */
export class FakePort implements SerialPort {
  readable: ReadableStream<Uint8Array> | null = null;
  /** With which settings it was opened, in turn. */
  readonly opened: Parameters<SerialPort["open"]>[0][] = [];
  /** What opening fails with, if it does. */
  refusal: DOMException | null = null;
  #bytes: ReadableStreamDefaultController<Uint8Array> | null = null;

  async open(options: Parameters<SerialPort["open"]>[0]): Promise<void> {
    if (this.refusal) throw this.refusal;
    if (this.readable) throw new DOMException("it is open", "InvalidStateError");
    this.opened.push(options);
    this.#renew();
  }

  async close(): Promise<void> {
    // as the specification has it: a locked stream keeps a port open
    if (this.readable?.locked) throw new TypeError("locked");
    this.readable = null;
  }

  send(...chunks: string[]): void {
    for (const chunk of chunks) this.#bytes?.enqueue(Uint8Array.from(chunk, (letter) => letter.charCodeAt(0)));
  }

  /** A byte came wrong: the stream fails, and another takes its place. */
  spoil(): void {
    const before = this.#bytes;
    this.#renew();
    before?.error(new DOMException("parity", "ParityError"));
  }

  /** The cable is pulled. */
  pull(): void {
    const before = this.#bytes;
    this.readable = null;
    before?.error(new DOMException("The device has been lost.", "NetworkError"));
  }

  #renew(): void {
    this.readable = new ReadableStream({
      start: (controller) => {
        this.#bytes = controller;
      },
    });
  }
}

/** Puts serial ports into the browser: those that it may use without asking, and what a person picks. */
export function putSerial(serial: Serial | undefined): void {
  // Node 20 has no navigator of its own
  if (!("navigator" in globalThis)) Object.defineProperty(globalThis, "navigator", { value: {}, configurable: true });
  Object.defineProperty(navigator, "serial", { value: serial, configurable: true });
}

export const serialWith = (known: FakePort[], picked: FakePort | DOMException): Serial => ({
  getPorts: async () => known,
  requestPort: async () => {
    if (picked instanceof DOMException) throw picked;
    return picked;
  },
});
