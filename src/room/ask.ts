import { asRead } from './as-read.ts';
import type { Practice } from './practice.ts';
import type { ActResult, SeenMessage } from './room.ts';
import { ScriptError, readAct, type ScriptAct } from './script.ts';

/** A message as `ask` prints it; `text` is everything a reader sees, in order. */
export type PrintedReply = {
  channel: string;
  author: string;
  to: string | null;
  private: boolean;
  text: string;
  buttons: string[];
  selects: { placeholder: string; options: string[] }[];
  images: { name: string; alt: string; bytes: number }[];
};

/** One act and what came of it. */
export type PrintedAct = {
  act: string;
  replies: PrintedReply[];
  choices?: string[];
  modal?: { title: string; fields: { label: string; kind: string; required: boolean; options: string[] }[] };
  error: string | null;
};

/** Plays one line and tells what everybody saw; null for a line that holds no act. Never throws. */
export async function playLine(practice: Practice, line: string): Promise<PrintedAct | null> {
  try {
    const act = readAct(line, knownOptions(practice));
    if (!act) return null;
    return printed(line.trim(), await play(practice, act));
  } catch (error) {
    if (!(error instanceof ScriptError)) throw error;
    return { act: line.trim(), replies: [], error: error.message };
  }
}

function knownOptions({ room }: Practice): Set<string> {
  const names = new Set<string>();
  const visit = (options: readonly { name: string; options?: unknown }[] | null | undefined) => {
    for (const option of options ?? []) {
      names.add(option.name);
      visit(option.options as typeof options);
    }
  };
  for (const command of room.world.commands.all()) visit(command.options);
  return names;
}

async function play(practice: Practice, act: ScriptAct): Promise<ActResult> {
  const { room } = practice;
  switch (act.kind) {
    case 'member':
      room.actor(act.spec.name, act.spec);
      return { replies: [] };
    case 'restart':
      await practice.restart();
      return { replies: [] };
    case 'clock':
      return seenByEverybody(practice, async () => {
        if ('setTo' in act) room.clock.set(act.setTo);
        else room.clock.advance(act.advanceMs);
        await room.quiet();
      });
    case 'slash':
      return room.actor(act.who).slash(act.command, act.options);
    case 'types':
      return room.actor(act.who).autocomplete(act.command, act.options);
    case 'press':
      return room.actor(act.who).press(act.label);
    case 'choose':
      return room.actor(act.who).choose(act.select, act.options);
    case 'fill':
      return room.actor(act.who).fill(act.fields);
    case 'says':
      return room.actor(act.who).say(act.text);
    case 'menu':
      return room.actor(act.who).menu(act.entry);
  }
}

/** What came to light for anybody while `happen` ran: each message once, in order. */
async function seenByEverybody({ room }: Practice, happen: () => Promise<void>): Promise<ActResult> {
  const members = () => room.world.members.all().filter(({ bot }) => !bot);
  const before = new Set(room.world.messages.all().map(({ id }) => id));
  await happen();
  const seen = new Map<string, SeenMessage>();
  for (const { name } of members())
    for (const message of room.actor(name).sees()) if (!before.has(message.id)) seen.set(message.id, message);
  return { replies: [...seen.values()].sort((one, other) => (BigInt(one.id) < BigInt(other.id) ? -1 : 1)) };
}

function printed(act: string, { replies, choices, modal, error }: ActResult): PrintedAct {
  return {
    act,
    replies: replies.map(printedReply),
    ...(choices ? { choices: choices.map(({ name }) => name) } : {}),
    ...(modal
      ? {
          modal: {
            title: modal.title,
            fields: modal.inputs.map(({ label, kind, required, options }) => ({ label, kind, required, options })),
          },
        }
      : {}),
    error: error ?? null,
  };
}

const printedReply = ({
  channelName,
  author,
  to,
  private: isPrivate,
  text,
  buttons,
  selects,
  images,
}: SeenMessage): PrintedReply => ({
  channel: channelName,
  author,
  to,
  private: isPrivate,
  text: asRead(text),
  buttons: buttons.map(({ label }) => label),
  selects: selects.map(({ placeholder, options }) => ({ placeholder, options: options.map(({ label }) => label) })),
  images: images.map(({ name, alt, bytes }) => ({ name, alt, bytes })),
});

/** An act as a person reads it in a terminal. */
export function inTerminal({ act, replies, choices, modal, error }: PrintedAct): string {
  const lines = [`> ${act}`];
  for (const reply of replies) {
    const to = reply.to ? ` to ${reply.to}` : '';
    lines.push(
      `  ${reply.author}${to} in #${reply.channel}${reply.private ? `, only ${reply.to ?? 'one member'} can see it` : ''}:`,
    );
    lines.push(...reply.text.split('\n').map((line) => `    ${line}`));
    if (reply.buttons.length > 0) lines.push(`    ${reply.buttons.map((label) => `[${label}]`).join(' ')}`);
    for (const { placeholder, options } of reply.selects) lines.push(`    {${placeholder}: ${options.join(' · ')}}`);
    for (const { name, alt, bytes } of reply.images) lines.push(`    (picture ${name}, ${bytes} bytes: ${alt})`);
  }
  if (choices) lines.push(...(choices.length > 0 ? choices.map((choice) => `    ${choice}`) : ['    (no choice)']));
  if (modal)
    lines.push(
      `    form "${modal.title}": ${modal.fields.map(({ label, required }) => `${label}${required ? ' (required)' : ''}`).join('; ')}`,
    );
  if (error) lines.push(`  not answered: ${error}`);
  return lines.join('\n');
}
