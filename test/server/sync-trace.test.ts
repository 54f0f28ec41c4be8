import { spawnSync } from "node:child_process";
import { randomUUID } from "node:crypto";
import { readFileSync, rmSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { scratch } from "./house.ts";
import { Pen } from "./pen.ts";
import { ServerProcess, tryPush } from "./server-process.ts";

/** A sandbox may forbid tracing; then, and only then, this cannot be seen. Without strace the test fails. */
const probe = spawnSync("strace", ["-e", "trace=none", "true"], { encoding: "utf8" });
const forbidden = probe.status !== 0 && `${probe.stderr}`.includes("not permitted");
if (forbidden) process.stdout.write(`B4 cannot run, this system forbids tracing: ${probe.stderr}\n`);

test.skipIf(forbidden)(
  "B4 between each push and its reply the kernel has synced the write-ahead log to the disk",
  async () => {
    const folder = scratch("trace");
    const trace = join(folder, "trace.txt");
    const server = new ServerProcess(folder);
    try {
      const calls = "read,recvfrom,write,writev,sendto,sendmsg,fsync,fdatasync,openat";
      await server.start({ command: ["strace", "-D", "-f", "-y", "-s", "64", "-e", `trace=${calls}`, "-o", trace] });
      const lead = await server.lead();
      const pen = new Pen(lead.device);
      const study = randomUUID();
      const pushes = 5;
      for (let push = 0; push < pushes; push += 1) {
        const reply = await tryPush(server.origin, lead.token, [pen.note(study).text]);
        expect(reply?.verdicts.map(({ verdict }) => verdict)).toEqual(["stored"]);
      }
      await server.end("SIGTERM");
      // strace goes on in the background until it has written the end down
      while (!readFileSync(trace, "utf8").includes("+++ exited with 0 +++\n")) await new Promise(setImmediate);
      const steps = stepsOf(readFileSync(trace, "utf8"));
      // per push: the request is read, the log is synced, the reply is written; nothing in another order
      expect(steps.slice(steps.indexOf("request"))).toEqual(
        Array.from({ length: pushes }, () => ["request", "sync", "reply"]).flat(),
      );
    } finally {
      await server.end("SIGKILL");
      rmSync(folder, { recursive: true, force: true });
    }
  },
);

/** The trace as requests for /api/events, syncs of the log while one is open, and replies to it. */
function stepsOf(trace: string): string[] {
  const steps: string[] = [];
  let open = false;
  for (const line of trace.split("\n")) {
    if (/(read|recvfrom)\(.*"POST \/api\/events/.test(line)) {
      open = true;
      steps.push("request");
    } else if (open && /(fsync|fdatasync)\(\d+<[^>]*cloche\.sqlite-wal>\)\s+= 0/.test(line)) {
      if (steps.at(-1) !== "sync") steps.push("sync");
    } else if (open && /(write|writev|sendto|sendmsg)\(.*HTTP\/1\.1 200/.test(line)) {
      steps.push("reply");
      open = false;
    }
  }
  return steps;
}
