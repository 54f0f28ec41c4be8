import fastifyStatic from "@fastify/static";
import type { FastifyInstance } from "fastify";

const yearSeconds = 365 * 24 * 3600;

/**
 * The built app. Files under assets/ carry a hash in their name and never change; everything else (pages, service
 * workers, manifests) is asked for anew each time, so that a new version is noticed.
 */
export async function serveApp(app: FastifyInstance, folder: string): Promise<void> {
  await app.register(fastifyStatic, {
    root: folder,
    cacheControl: false,
    dotfiles: "ignore",
    setHeaders(response, path) {
      const hashed = path.slice(folder.length).replaceAll("\\", "/").startsWith("/assets/");
      response.setHeader("cache-control", hashed ? `public, max-age=${yearSeconds}, immutable` : "no-cache");
    },
  });
  // a service worker's scope and relative links need the slash
  for (const part of ["organizer", "panel", "report"]) {
    app.get(`/${part}`, async (_request, reply) => reply.redirect(`/${part}/`, 308));
  }
}
