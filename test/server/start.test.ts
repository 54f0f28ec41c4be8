import { execFileSync, spawnSync } from "node:child_process";
import { X509Certificate } from "node:crypto";
import { chmodSync, chownSync, mkdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { addressOf, reachableHosts } from "../../src/server/addresses.ts";
import { readOptions } from "../../src/server/options.ts";
import { daysLeft } from "../../src/server/tls/certificate.ts";
import { localCa } from "../../src/server/tls/local-ca.ts";
import { problemOf } from "../problem-of.ts";
import { callServer, scratch } from "./house.ts";
import { httpsCall, ServerProcess } from "./server-process.ts";

let folder: string;
let server: ServerProcess;
beforeEach(() => {
  folder = scratch("start");
  server = new ServerProcess(folder);
});
afterEach(async () => {
  if (server.child) await server.end("SIGKILL");
  rmSync(folder, { recursive: true, force: true });
});

/** One sentence: it ends with a period, and there is no line of a stack trace. */
const oneSentence = /^[^\n]+\.\n$/;

describe("options", () => {
  test("a flag wins over the environment, the environment over the file, the file over the default", () => {
    const config = join(folder, "config.json");
    writeFileSync(config, JSON.stringify({ port: 1, host: "127.0.0.2", name: "kitchen.test", verbose: true }));
    const env = { CLOCHE_PORT: "2", CLOCHE_HOST: "127.0.0.3", CLOCHE_CONFIG: config, CLOCHE_LOCAL_CA: "1" };
    expect(readOptions(["--port", "3"], env)).toEqual({
      port: 3,
      host: "127.0.0.3",
      name: "kitchen.test",
      data: "./cloche-data",
      "local-ca": true,
      "lead-link": false,
      restored: false,
      verbose: true,
    });
    expect(readOptions([], {})).toMatchObject({ port: 8080, host: "0.0.0.0", "local-ca": false });
    expect(readOptions(["--help"], {})).toBeNull();
  });

  test("what cannot be is named with what would do", () => {
    const config = join(folder, "config.json");
    writeFileSync(config, '{"port":"x"}');
    const of = (argv: string[], env = {}) => problemOf(() => readOptions(argv, env));
    expect(of(["--port", "70000"])).toMatchObject({ code: "cli/bad-option", details: { option: "--port" } });
    expect(of(["--port", "80x"])).toMatchObject({ code: "cli/bad-option", details: { value: "80x" } });
    expect(of([], { CLOCHE_VERBOSE: "maybe" })).toMatchObject({ code: "cli/bad-option" });
    expect(of(["--prot", "1"])).toEqual({
      code: "cli/unknown-option",
      details: { option: "--prot", command: "start" },
    });
    expect(of(["now"])).toMatchObject({ code: "cli/unknown-option", details: { option: "now" } });
    expect(of(["--cert", "a.pem"])).toMatchObject({ code: "cli/missing-option", details: { option: "--key" } });
    expect(of(["--local-ca", "--cert", "a", "--key", "b"])).toMatchObject({ code: "cli/bad-option" });
    expect(of(["--name", "bad name"])).toMatchObject({ code: "cli/bad-option", details: { option: "--name" } });
    expect(of(["--config", config])).toMatchObject({ code: "file/wrong-shape", details: { path: config } });
    expect(of(["--config", join(folder, "none")])).toMatchObject({ code: "file/not-found" });
  });

  test("addresses: names first, IPv6 in brackets, standard ports left out", () => {
    expect(addressOf("https", "kitchen.test", 443)).toBe("https://kitchen.test/");
    expect(addressOf("http", "192.0.2.7", 8080)).toBe("http://192.0.2.7:8080/");
    expect(addressOf("https", "2001:db8::7", 8443)).toBe("https://[2001:db8::7]:8443/");
    expect(reachableHosts("127.0.0.1", "kitchen.test")).toEqual(["kitchen.test"]);
    expect(reachableHosts("192.0.2.7", "kitchen.test")).toEqual(["kitchen.test", "192.0.2.7"]);
  });
});

describe("what the start says", () => {
  test("addresses, where the data lies, and the lead's one-time address, which works once", async () => {
    await server.start();
    expect(server.output).toContain(server.data);
    expect(server.output).toContain(`http://localhost:${server.port}/organizer/#setup=`);
    expect(server.output).toContain(`http://localhost:${server.port}/panel/`);
    expect(server.output).not.toContain("plain http"); // only this computer can reach it: nothing is lacking
    expect((await server.lead()).role).toBe("lead");
    await expect(server.lead()).rejects.toThrow("enroll/bad-code");
    expect(await server.end("SIGTERM")).toBe(0);
    expect(server.errors).not.toContain("Bearer");
    await server.start();
    expect(server.output).not.toContain("#setup=");
    await server.end("SIGTERM");
    await server.start({ args: ["--lead-link"] });
    expect((await server.lead()).role).toBe("lead");
  });

  test("an address that was not used dies with its server", async () => {
    await server.start();
    const old = /#setup=(\S+)/.exec(server.output)?.[1];
    await server.end("SIGTERM");
    await server.start();
    const reply = await callServer(server.origin, "POST", "/api/enroll", { body: { code: old, name: "" } });
    expect(reply.status).toBe(403);
  });

  test("--restored names the database anew, once; the other starts keep its name", async () => {
    const names: string[] = [];
    for (const args of [[], [], ["--restored"], []]) {
      await server.start({ args });
      expect(server.output.includes("put back from a copy")).toBe(args.length > 0);
      names.push(((await callServer(server.origin, "GET", "/api/hello")).json as { incarnation: string }).incarnation);
      await server.end("SIGTERM");
    }
    const [first, second, third, fourth] = names;
    expect(second).toBe(first);
    expect(third).not.toBe(first);
    expect(fourth).toBe(third);
  });

  test("with a name for other devices on plain http it says what will not work there, and leads get that name", async () => {
    await server.start({ args: ["--name", "kitchen.test"] });
    const { token } = await server.lead();
    const { json } = await callServer(server.origin, "GET", "/api/addresses", { token });
    expect(json).toEqual({ addresses: [`http://kitchen.test:${server.port}/`] });
    expect(server.output).toContain(`http://kitchen.test:${server.port}/panel/`);
    expect(server.output).toContain("plain http");
    expect(server.output).toContain("no plan can be locked");
  });

  test("--help names every option and starts nothing", async () => {
    await server.start({ args: ["--help"] });
    expect(await server.ended()).toBe(0);
    for (const name of [
      "port",
      "host",
      "data",
      "cert",
      "key",
      "local-ca",
      "trust-port",
      "name",
      "lead-link",
      "restored",
      "app",
    ]) {
      expect(server.output).toContain(`--${name}`);
    }
  });
});

describe("B7 what keeps it from starting is one sentence on standard error, and an exit code that is not 0", () => {
  const failing = async (args: string[], uid?: number) => {
    await server.start({ args, ...(uid === undefined ? {} : { uid }) });
    expect([1, 2]).toContain(await server.ended()); // 2 where it is the caller's to correct
    expect(server.errors).toMatch(oneSentence);
    return server.errors;
  };

  test("a busy port", async () => {
    const other = createServer();
    await new Promise<void>((done) => other.listen(0, "127.0.0.1", done));
    server.port = (other.address() as AddressInfo).port;
    expect(await failing([])).toContain(`Port ${server.port} is in use`);
    other.close();
  });

  test("a data folder under a file", async () => {
    writeFileSync(join(folder, "file"), "");
    expect(await failing(["--data", join(folder, "file", "data")])).toContain("cannot be written");
  });

  test("a data folder or a database of another owner", async () => {
    // root may write anywhere: then the server runs as nobody
    const uid = process.getuid?.() === 0 ? 65_534 : undefined;
    chmodSync(folder, 0o755);
    const place = join(folder, "closed");
    mkdirSync(place, { mode: 0o555 });
    expect(await failing(["--data", place], uid)).toContain(`${place} cannot be written (EACCES)`);
    const half = join(folder, "half");
    mkdirSync(half);
    writeFileSync(join(half, "cloche.sqlite"), "", { mode: 0o444 });
    if (uid !== undefined) chownSync(half, uid, uid);
    expect(await failing(["--data", half], uid)).toContain(`${half} cannot be written (EACCES)`);
  });

  test("a damaged database", async () => {
    mkdirSync(server.data);
    writeFileSync(join(server.data, "cloche.sqlite"), "no database ".repeat(1000));
    expect(await failing([])).toContain("is damaged");
  });

  test("an app that is not built", async () => {
    const empty = join(folder, "empty");
    mkdirSync(empty);
    expect(await failing(["--app", empty])).toContain("npm run build");
  });

  test("a certificate that is none, is missing, or has another key", async () => {
    const paths = [1, 2].map((number) => {
      const [cert, key] = [join(folder, `cert${number}.pem`), join(folder, `key${number}.pem`)];
      const curve = ["-newkey", "ec", "-pkeyopt", "ec_paramgen_curve:P-256"];
      const subject = ["-subj", "/CN=kitchen.test", "-days", "30"];
      execFileSync("openssl", ["req", "-x509", ...curve, "-nodes", "-keyout", key, "-out", cert, ...subject], {
        stdio: "pipe",
      });
      return { cert, key };
    });
    const [one, two] = paths;
    if (!one || !two) throw new Error("no certificates");
    const none = join(folder, "none.pem");
    expect(await failing(["--cert", none, "--key", one.key])).toContain(
      `${none} cannot be used: there is no such file`,
    );
    writeFileSync(none, "nothing");
    expect(await failing(["--cert", none, "--key", one.key])).toContain(`${none} cannot be used`);
    expect(await failing(["--cert", one.cert, "--key", two.key])).toContain(`${two.key} cannot be used`);

    await server.start({ args: ["--cert", one.cert, "--key", one.key, "--name", "kitchen.test"] });
    const reply = await httpsCall(server.port, "kitchen.test", "/healthz", readFileSync(one.cert, "utf8"));
    expect(reply).toMatchObject({ status: 200, text: '{"ok":true}' });
    expect(server.output).not.toContain("plain http");
  });
});

describe("the kitchen's own certificate authority", () => {
  test("a client that trusts it gets in under each name, one that does not gets no reply; the cookie is Secure", async () => {
    await server.start({ args: ["--local-ca", "--name", "kitchen.test"] });
    const ca = readFileSync(join(server.data, "tls/authority.pem"), "utf8");
    for (const host of ["localhost", "kitchen.test"]) {
      expect((await httpsCall(server.port, host, "/healthz", ca)).status).toBe(200);
    }
    await expect(httpsCall(server.port, "elsewhere.test", "/healthz", ca)).rejects.toThrow(/altnames/);
    await expect(httpsCall(server.port, "localhost", "/healthz", undefined)).rejects.toThrow(/certificate/);
    expect(server.output).toContain(`https://localhost:${server.port}/organizer/#setup=`);
    const enroll = async (code: string | undefined) =>
      httpsCall(server.port, "localhost", "/api/enroll", ca, { body: { code, name: "" } });
    const lead = JSON.parse((await enroll(/#setup=(\S+)/.exec(server.output)?.[1])).text) as { token: string };
    const body = { role: "panel", study: null, name: "" };
    const made = await httpsCall(server.port, "localhost", "/api/codes", ca, { token: lead.token, body });
    expect((await enroll((JSON.parse(made.text) as { code: string }).code)).cookie).toMatch(
      /^cloche-device=.*; Secure/,
    );
    for (const name of ["authority-key.pem", "server-key.pem"]) {
      expect(statSync(join(server.data, "tls", name)).mode & 0o777).toBe(0o600);
    }
  });

  test("OpenSSL agrees: the chain is sound for a TLS server, signed with SHA-256", async () => {
    await localCa(folder, ["kitchen.test", "192.0.2.7"], Date.now());
    const [authority, cert] = [join(folder, "tls/authority.pem"), join(folder, "tls/server.pem")];
    const args = ["verify", "-purpose", "sslserver", "-verify_hostname", "kitchen.test"];
    const { stdout } = spawnSync("openssl", [...args, "-CAfile", authority, cert], { encoding: "utf8" });
    expect(stdout).toContain(`${cert}: OK`);
    const text = execFileSync("openssl", ["x509", "-in", cert, "-noout", "-text"], { encoding: "utf8" });
    expect(text).toContain("ecdsa-with-SHA256");
    expect(text).toContain("IP Address:192.0.2.7");
  });

  test("its page gives out the public part and the fingerprint, and no key", async () => {
    await server.start({ args: ["--local-ca", "--trust-port", "0", "--name", "kitchen.test"] });
    const port = /http:\/\/kitchen\.test:(\d+)\//.exec(server.output)?.[1];
    const get = async (path: string) => fetch(`http://127.0.0.1:${port}${path}`);
    const page = await (await get("/")).text();
    const download = await get("/cloche-ca.crt");
    const pem = await download.text();
    expect(download.headers.get("content-type")).toBe("application/x-x509-ca-cert");
    expect(pem).toBe(readFileSync(join(server.data, "tls/authority.pem"), "utf8"));
    expect(pem).not.toContain("PRIVATE");
    // the fingerprint as OpenSSL computes it
    const printed = execFileSync("openssl", ["x509", "-noout", "-fingerprint", "-sha256"], { input: pem }).toString();
    const fingerprint = printed.split("=")[1]?.trim() ?? "none";
    expect(page).toContain(fingerprint);
    expect(server.output).toContain(fingerprint);
    for (const device of ["Android", "iPad", "Windows", "macOS", "Debian"]) expect(page).toContain(device);
    for (const path of ["/authority-key.pem", "/../tls/authority-key.pem", "/api/hello"]) {
      expect((await get(path)).status).toBe(404);
    }
    expect((await fetch(`http://127.0.0.1:${port}/`, { method: "POST" })).status).toBe(404);
  });

  test("a later start uses the same authority and certificate; new addresses or a near end give a new certificate", async () => {
    const now = Date.now();
    const day = 24 * 3600 * 1000;
    const first = await localCa(folder, ["kitchen.test"], now);
    expect(first.made).toBe(true);
    const again = await localCa(folder, ["kitchen.test"], now + day);
    expect(again).toEqual({ ...first, made: false });
    const wider = await localCa(folder, ["kitchen.test", "192.0.2.9"], now + day);
    expect(wider.authority).toBe(first.authority);
    expect(wider.tls.cert).not.toBe(first.tls.cert);
    expect(new X509Certificate(wider.tls.cert).checkIP("192.0.2.9")).toBe("192.0.2.9");
    const ends = daysLeft(wider.tls.cert, now);
    const kept = await localCa(folder, ["kitchen.test", "192.0.2.9"], now + (ends - 14) * day);
    expect(kept.tls.cert).toBe(wider.tls.cert);
    const renewed = await localCa(folder, ["kitchen.test", "192.0.2.9"], now + (ends - 12) * day);
    expect(renewed.authority).toBe(first.authority);
    expect(renewed.tls.cert).not.toBe(wider.tls.cert);
  });
});
