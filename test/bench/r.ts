import { type ChildProcess, spawn } from "node:child_process";
import { createInterface, type Interface } from "node:readline";

/** R's side, open for the whole run. */
export class RSide {
  readonly #child: ChildProcess;
  readonly #lines: AsyncIterator<string>;
  readonly #input: NodeJS.WritableStream;
  readonly #reader: Interface;

  private constructor(child: ChildProcess, output: NodeJS.ReadableStream, input: NodeJS.WritableStream) {
    this.#child = child;
    this.#input = input;
    this.#reader = createInterface({ input: output });
    this.#lines = this.#reader[Symbol.asyncIterator]();
  }

  /** Null when there is no R. */
  static async open(script: string, given: readonly string[]): Promise<RSide | null> {
    const child = spawn("Rscript", ["--vanilla", script, ...given], { stdio: ["pipe", "pipe", "inherit"] });
    const { stdin, stdout } = child;
    const started = await new Promise<boolean>((done) => {
      child.once("spawn", () => done(true));
      child.once("error", () => done(false));
    });
    return started && stdin && stdout ? new RSide(child, stdout, stdin) : null;
  }

  /** What it comes to; empty where it lacks a package. */
  async numbers(): Promise<number[]> {
    const line = await this.#ask("numbers");
    return line === "" ? [] : line.split(",").map(Number);
  }

  /** Seconds for so many passes, by R's own clock. */
  async seconds(passes: number): Promise<number> {
    return Number(await this.#ask(String(passes)));
  }

  close(): void {
    this.#reader.close();
    this.#input.end();
    this.#child.kill();
  }

  async #ask(line: string): Promise<string> {
    this.#input.write(`${line}\n`);
    const { value, done } = await this.#lines.next();
    if (done) throw new Error("R ended; what it wrote above says why");
    return value;
  }
}
