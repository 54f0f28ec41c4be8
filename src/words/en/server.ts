/** What `cloche start` prints, its help, and the page that hands out the local certificate authority. */
export type ServerAddresses = {
  /** On this computer itself. */
  local: string;
  /** From elsewhere in the network; empty when the server listens to this computer only. */
  network: string[];
};

const list = (lines: string[]) => lines.map((line) => `    ${line}`).join("\n");

export const startWords = {
  help: `cloche start: run the server with the app.

  --port N         port to listen on; 0 takes any free one (8080)
  --host ADDRESS   address to listen on; 127.0.0.1 keeps other devices out (0.0.0.0: the whole network)
  --data FOLDER    where everything is kept; made if missing (./cloche-data)
  --cert FILE      certificate chain, PEM; with --key serves https
  --key FILE       private key of that certificate, PEM
  --local-ca       serve https with a certificate authority of your own, made in the data folder
  --trust-port N   port of the page that explains how tablets come to trust it (the port plus one)
  --name NAME      host name that tablets use; goes into addresses and the local certificate
  --lead-link      print a fresh one-time address for a lead's device, valid for ten minutes
  --restored       the data folder was put back from a copy: for this one start, so that every device sends again
                   what it holds
  --app FOLDER     folder of the built app (dist/app of this checkout)
  --config FILE    JSON file with any of these, named as here without the dashes
  --verbose        log every request to standard error
  --help           this text

Each option can also be set in the environment: CLOCHE_PORT, CLOCHE_LOCAL_CA=1 and so on. A flag wins over the
environment, the environment over the file.`,

  running: ({ local, network }: ServerAddresses) =>
    network.length === 0
      ? `Cloche is running, for this computer only:\n${list([local])}`
      : `Cloche is running. On this computer:\n${list([local])}\nFrom the network:\n${list(network)}`,
  tablets: (addresses: string[]) => `Tablets open:\n${list(addresses.map((address) => `${address}panel/`))}`,
  data: (folder: string) => `Everything is kept in:\n${list([folder])}`,
  restored:
    "The data was put back from a copy: every device now sends again what it holds. Leave out --restored from the next start on.",
  firstLead: (links: string[]) =>
    `Set up the lead's device with this address. It works once, as long as this server runs:\n${list(links)}`,
  moreLead: (links: string[]) =>
    `For one more lead's device. This address works once, for ten minutes:\n${list(links)}`,
  leadLinkHint: "If it is lost, start again with --lead-link to get a fresh one.",
  stop: "Ctrl+C stops the server.",
  stopped: "Cloche has stopped. Everything is kept.",

  plainHttp: `These addresses are plain http. On other devices that means: the app cannot be opened without the network,
storage may be cleared by the browser, and no plan can be locked (no encryption). Answers are still kept on the
tablet until they are sent. For https use --cert and --key, or --local-ca.`,
  trust: (addresses: string[]) =>
    `Each tablet must trust this server's certificate authority once. How to do that stands at:\n${list(addresses)}`,
  fingerprint: (text: string) => `Its SHA-256 fingerprint, to compare:\n${list([text])}`,
  authorityMade: "A new certificate authority was made. Tablets that trusted an older one must trust this one anew.",
  certificateEnds: (days: number) =>
    days < 0
      ? "The certificate has expired: tablets cannot send until it is renewed. What they hold is safe."
      : `The certificate ends in ${days === 1 ? "one day" : `${days} days`}. Renew it before; tablets cannot send with an expired one.`,
};

/** The page on the trust port. Names of menus are those of common versions; they move about. */
export const trustWords = {
  title: "Trust this Cloche server",
  intro:
    "This kitchen's Cloche server has a certificate authority of its own. A device that trusts it can open Cloche over https, and then works without the network. Do this once on each device, and only if you run this server yourself or trust who does.",
  fingerprint: "SHA-256 fingerprint. Compare it with the one on the server's screen before you go on:",
  download: "Download the certificate",
  afterwards: "Then open Cloche:",
  steps: [
    {
      device: "Android",
      lines: [
        "Download the certificate.",
        "Open Settings and search for “CA certificate” (under Security, Encryption and credentials, Install a certificate).",
        "Choose CA certificate, accept the warning, and pick the downloaded file.",
      ],
    },
    {
      device: "iPad and iPhone",
      lines: [
        "Download the certificate in Safari and allow the profile.",
        "Open Settings, General, VPN & Device Management, and install the profile.",
        "Open Settings, General, About, Certificate Trust Settings, and switch on full trust for it. Without this second switch nothing works.",
      ],
    },
    {
      device: "Windows",
      lines: [
        "Download the certificate and open the file.",
        "Choose Install Certificate, Local Machine, and place it in Trusted Root Certification Authorities.",
      ],
    },
    {
      device: "macOS",
      lines: [
        "Download the certificate and open it with Keychain Access; add it to the System keychain.",
        "Open the entry, then Trust, and set it to Always Trust.",
      ],
    },
    {
      device: "Debian and its relatives",
      lines: [
        "Copy the file to /usr/local/share/ca-certificates/cloche-ca.crt and run update-ca-certificates as root.",
        "Firefox and Chromium keep their own lists: import the file under Certificates, Authorities, in their settings.",
      ],
    },
  ],
};
