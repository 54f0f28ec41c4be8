import { clientsClaim } from "workbox-core";
import {
  cleanupOutdatedCaches,
  createHandlerBoundToURL,
  type PrecacheEntry,
  precacheAndRoute,
} from "workbox-precaching";
import { NavigationRoute, registerRoute } from "workbox-routing";

declare const self: ServiceWorkerGlobalScope & { __WB_MANIFEST: PrecacheEntry[]; __ENTRY: string };

/**
 * The worker of one entry: serves the whole shell from its precache, never the API. A new version waits until the
 * page says so, which it does between trays only; it is built once for each entry (vite.config.ts).
 */
precacheAndRoute(self.__WB_MANIFEST);
cleanupOutdatedCaches();
registerRoute(new NavigationRoute(createHandlerBoundToURL(`/${self.__ENTRY}/index.html`), { denylist: [/^\/api\//] }));
clientsClaim();
self.addEventListener("message", (event) => {
  if (event.data?.type === "SKIP_WAITING") void self.skipWaiting();
});
