import { serve } from '@hono/node-server';
import { Hono } from 'hono';

export type Health = { close: () => void };

/**
 * `/healthz` says that the process lives, `/readyz` that it is connected and can answer (503 while it cannot).
 * On loopback only: a supervisor or a container's own check asks from inside.
 */
export function serveHealth(port: number, isReady: () => boolean): Health {
  const app = new Hono();
  app.get('/healthz', (context) => context.text('alive\n'));
  app.get('/readyz', (context) => (isReady() ? context.text('ready\n') : context.text('not connected\n', 503)));
  const server = serve({ fetch: app.fetch, port, hostname: '127.0.0.1' });
  return { close: () => void server.close() };
}
