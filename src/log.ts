import { pino, type Logger } from 'pino';

export type Log = Pick<Logger, 'debug' | 'info' | 'warn' | 'error'>;

/** JSON lines on standard error. Tokens and what members wrote are never logged. */
export function createLog(level: string): Log {
  return pino(
    {
      level,
      base: null,
      redact: {
        paths: ['token', '*.token', 'headers.authorization', 'err.requestBody', 'err.rawError', 'err.url'],
        remove: true,
      },
    },
    pino.destination({ dest: 2, sync: true }),
  );
}
