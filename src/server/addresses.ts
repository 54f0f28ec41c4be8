import { isIP } from "node:net";
import { networkInterfaces } from "node:os";

/** Addresses of this computer in its networks, IPv4 first, without loopback and link-local ones. */
export function networkAddresses(): string[] {
  const all = Object.values(networkInterfaces()).flatMap((list) => list ?? []);
  const usable = all.filter(({ internal, address }) => !internal && !/^(fe80|169\.254)/i.test(address));
  return [
    ...usable.filter(({ family }) => family === "IPv4").map(({ address }) => address),
    ...usable.filter(({ family }) => family === "IPv6").map(({ address }) => address),
  ];
}

export const isLoopback = (host: string): boolean => host === "localhost" || host === "::1" || host.startsWith("127.");

export const isEverywhere = (host: string): boolean => host === "0.0.0.0" || host === "::";

/** Names and addresses by which other devices reach a server that listens on `host`, best first. */
export function reachableHosts(host: string, name: string | undefined): string[] {
  const named = name === undefined ? [] : [name];
  if (isLoopback(host)) return named;
  const addresses = isEverywhere(host) ? networkAddresses() : [host];
  // on 0.0.0.0 nothing listens for IPv6
  return [...named, ...(host === "0.0.0.0" ? addresses.filter((a) => isIP(a) === 4) : addresses)];
}

/** "https://192.0.2.7:8080/" */
export function addressOf(scheme: "http" | "https", host: string, port: number): string {
  const standard = scheme === "https" ? 443 : 80;
  return `${scheme}://${isIP(host) === 6 ? `[${host}]` : host}${port === standard ? "" : `:${port}`}/`;
}
