import { useEffect } from "preact/hooks";
import { reader } from "../words/en/reader.ts";

/** `commitment`: null where there is no study. */
type Sheet = { title: string; commitment: string | null; now: () => string };

/**
 * Gets the page ready for paper: names it (the name of a saved PDF), prints study, page, commitment and time in the
 * foot of each page, and opens the details that belong on paper while it prints.
 */
export function usePaper({ title, commitment, now }: Sheet): void {
  useEffect(() => {
    document.title = reader.documentTitle(title);
    const sheet = new CSSStyleSheet();
    document.adoptedStyleSheets = [...document.adoptedStyleSheets, sheet];
    let opened: HTMLDetailsElement[] = [];
    const before = (): void => {
      sheet.replaceSync(footRules(title, commitment, now()));
      opened = [...document.querySelectorAll<HTMLDetailsElement>("details[data-print]:not([open])")];
      for (const one of opened) one.open = true;
    };
    const after = (): void => {
      for (const one of opened) one.open = false;
      opened = [];
    };
    window.addEventListener("beforeprint", before);
    window.addEventListener("afterprint", after);
    return () => {
      window.removeEventListener("beforeprint", before);
      window.removeEventListener("afterprint", after);
      document.adoptedStyleSheets = document.adoptedStyleSheets.filter((one) => one !== sheet);
    };
  }, [title, commitment, now]);
}

/** The foot of each printed page, as rules of CSS: only there is the number of pages known. */
export function footRules(title: string, commitment: string | null, printedAt: string): string {
  const { print } = reader;
  const middle = `${cssText(`${print.page} `)} counter(page) ${cssText(` ${print.of} `)} counter(pages)`;
  const seal = commitment === null ? "" : ` ${cssText(` \u00b7 ${print.commitment(commitment)}`)}`;
  return `@page {
    @bottom-left { content: ${cssText(title.length > 60 ? `${title.slice(0, 59)}\u2026` : title)}; }
    @bottom-center { content: ${middle}${seal}; }
    @bottom-right { content: ${cssText(print.printed(printedAt))}; }
  }`;
}

/** A text as a CSS string; whatever a lead typed stays text. */
export const cssText = (text: string): string =>
  `"${text.replace(/[\\"<]|\p{Cc}/gu, (sign) => `\\${sign.charCodeAt(0).toString(16)} `)}"`;
