/** What is used of a browser's serial ports (Web Serial, WICG draft); the compiler's own types do not have them. */
export type SerialPort = {
  /** Null while closed, or after the port was lost. A byte that came wrong puts a new stream in its place. */
  readonly readable: ReadableStream<Uint8Array> | null;
  open: (options: {
    baudRate: number;
    dataBits: 7 | 8;
    parity: "none" | "even" | "odd";
    stopBits: 1 | 2;
  }) => Promise<void>;
  close: () => Promise<void>;
};

export type Serial = {
  getPorts: () => Promise<SerialPort[]>;
  requestPort: () => Promise<SerialPort>;
};

/** The browser's serial ports; null where it has none or the page is not secure. The only place that asks for them. */
export function serialOf(): Serial | null {
  const { serial } = navigator as Navigator & { serial?: Serial };
  return serial ?? null;
}
