declare const __APP_VERSION__: string;

/** The version of the app, from package.json at build time. */
export const appVersion: string = __APP_VERSION__;
