/** Was nothing typed? */
export const isBlank = (text: string): boolean => text.trim() === "";

/** Do two words read the same? */
export const alike = (one: string, other: string): boolean => one.trim().toLowerCase() === other.trim().toLowerCase();
