import { serve } from '@hono/node-server';
import { Hono } from 'hono';

export type Health = { close: () => void };

/** The port of the health endpoint cannot be had. */
export class HealthPortTaken extends Error {}

/**
 * `/healthz` says that the process lives, `/readyz` that it is connected and can answer (503 while it cannot).
 * On loopback only: a supervisor or a container's own check asks from inside.
 *
 * @throws HealthPortTaken when something else listens there.
 */
export function serveHealth(port: number, isReady: () => boolean): Promise<Health> {
  const app = new Hono();
  app.get('/healthz', (context) => context.text('alive\n'));
  app.get('/readyz', (context) => (isReady() ? context.text('ready\n') : context.text('not connected\n', 503)));
  return new Promise((resolve, reject) => {
    const server = serve({ fetch: app.fetch, port, hostname: '127.0.0.1' }, () =>
      resolve({ close: () => void server.close() }),
    );
    server.once('error', (error) =>
      reject(
        Reflect.get(error, 'code') === 'EADDRINUSE'
          ? new HealthPortTaken(`HEALTH_PORT: port ${port} is taken. Set it to another number, or remove the line.`)
          : error,
      ),
    );
  });
}
