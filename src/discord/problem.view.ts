import type { z } from 'zod';
import { joined, md, type MessageView } from './message-view.ts';

/** Options that could not be used: what came, what was expected. Private. */
export function problemView(error: z.ZodError): MessageView {
  const lines = error.issues.map(({ path, message }) => md`- **${path.join(' ') || 'your input'}**: ${message}`);
  return {
    audience: 'member',
    tone: 'plain',
    blocks: [
      {
        kind: 'text',
        text: md`## I couldn’t use that`,
      },
      { kind: 'text', text: joined(lines) },
      {
        kind: 'text',
        text: md`Nothing was changed. Correct it and send the command again.`,
      },
    ],
  };
}

/** A mistake of ours, in one plain sentence with the code that stands in the log. Private. */
export function troubleView(ref: string): MessageView {
  return {
    audience: 'member',
    tone: 'plain',
    blocks: [
      {
        kind: 'text',
        text: md`## Something went wrong on my side`,
      },
      {
        kind: 'text',
        text: md`Ask again. If it stays, tell an officer the code **${ref}**; it stands in the log. Nothing was lost.`,
      },
    ],
  };
}
