import { type AddressInfo, connect, createServer, type Server, type Socket } from "node:net";

/** A wire between a client and a server that the test can cut: requests always pass, replies as `mode` says. */
export class Wire {
  /** pass: replies go through. hold: they are kept back until the connection ends. */
  mode: "pass" | "hold" | "refuse" = "pass";
  /** Bytes of replies kept back so far. */
  held = 0;
  readonly #server: Server;
  readonly #sockets = new Set<Socket>();
  #target: number;

  private constructor(target: number) {
    this.#target = target;
    this.#server = createServer((client) => this.#join(client));
  }

  static async open(target: number): Promise<Wire> {
    const wire = new Wire(target);
    await new Promise<void>((done) => wire.#server.listen(0, "127.0.0.1", done));
    return wire;
  }

  get origin(): string {
    return `http://127.0.0.1:${(this.#server.address() as AddressInfo).port}`;
  }

  /** Cuts every connection there is. */
  cut(): void {
    for (const socket of this.#sockets) socket.destroy();
    this.#sockets.clear();
    this.held = 0;
  }

  async close(): Promise<void> {
    this.cut();
    await new Promise((done) => this.#server.close(done));
  }

  #join(client: Socket): void {
    if (this.mode === "refuse") {
      client.destroy();
      return;
    }
    const server = connect(this.#target, "127.0.0.1");
    for (const socket of [client, server]) {
      this.#sockets.add(socket);
      socket.on("error", () => undefined);
      socket.on("close", () => {
        client.destroy();
        server.destroy();
      });
    }
    client.on("data", (bytes) => server.write(bytes));
    server.on("data", (bytes) => {
      if (this.mode === "pass") client.write(bytes);
      else this.held += bytes.length;
    });
  }
}
