import type { RestFault } from './room.ts';

export type Faults = ReturnType<typeof createFaults>;

/** The faults that are waiting to be played; each is used up after its `times`. */
export function createFaults() {
  let waiting: { fault: RestFault; left: number }[] = [];
  return {
    add(fault: RestFault): void {
      waiting.push({ fault, left: fault.times });
    },
    clear(): void {
      waiting = [];
    },
    /** Faults that have not been played to their end. */
    left: (): RestFault[] => waiting.map(({ fault }) => fault),
    /** The fault to play on a request such as `POST /channels/1/messages`, if any. */
    take(request: string): RestFault | null {
      const found = waiting.find(({ fault }) => fault.match.test(request));
      if (!found) return null;
      found.left -= 1;
      if (found.left <= 0) waiting = waiting.filter((one) => one !== found);
      return found.fault;
    },
  };
}

export type FaultAnswer = { status: number; body: unknown; headers?: Record<string, string> };

/** What a fault answers; `hang-up` and `delay` have no answer of their own. */
export function faultAnswer(fault: RestFault): FaultAnswer | null {
  switch (fault.kind) {
    case 'rate-limit': {
      const seconds = (fault.ms ?? 1000) / 1000;
      return {
        status: 429,
        body: { message: 'You are being rate limited.', retry_after: seconds, global: false },
        headers: {
          'retry-after': String(seconds),
          'x-ratelimit-scope': 'user',
          'x-ratelimit-remaining': '0',
          'x-ratelimit-reset-after': String(seconds),
        },
      };
    }
    case 'server-error':
      return { status: fault.status ?? 500, body: { message: 'Internal Server Error', code: 0 } };
    case 'forbidden':
      return { status: fault.status ?? 403, body: { message: 'Missing Permissions', code: fault.code ?? 50013 } };
    case 'unauthorized':
      return { status: fault.status ?? 401, body: { message: '401: Unauthorized', code: fault.code ?? 0 } };
    case 'not-found':
      return { status: fault.status ?? 404, body: { message: 'Unknown', code: fault.code ?? 10008 } };
    case 'hang-up':
    case 'delay':
      return null;
  }
}
