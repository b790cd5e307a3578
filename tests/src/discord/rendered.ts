import type { APIComponentInContainer } from 'discord.js';
import { expect } from 'vitest';
import type { RenderedMessage } from '../../../src/discord/render.ts';

/** What the one container of a rendered message holds. */
export function contentsOf({ components }: RenderedMessage): APIComponentInContainer[] {
  const [container, ...more] = components;
  if (!container || more.length > 0 || !('components' in container) || container.type !== 17)
    throw new Error('expected one container');
  return container.components;
}

/** The texts of a message, in order. */
export const textsOf = (message: RenderedMessage): string[] =>
  contentsOf(message).flatMap((part) => ('content' in part ? [part.content] : []));

type Part = Readonly<Record<string, unknown>>;

/** Every component of a message, at any depth, however it is nested. */
function allParts(value: unknown): Part[] {
  if (Array.isArray(value)) return value.flatMap(allParts);
  if (typeof value !== 'object' || value === null) return [];
  const part = value as Part;
  return [...('type' in part ? [part] : []), ...Object.values(part).flatMap(allParts)];
}

export const countOf = ({ components }: RenderedMessage): number => allParts(components).length;

/** The labels and custom ids of all buttons. */
export const buttonsOf = ({ components }: RenderedMessage): { label: string; custom_id: string }[] =>
  allParts(components)
    .filter(({ type }) => type === 2)
    .map(({ label, custom_id }) => ({ label: String(label), custom_id: String(custom_id) }));

/** Fails when Discord would refuse the message. */
export function expectWithinLimits(message: RenderedMessage): void {
  const parts = allParts(message.components);
  const contents = parts.flatMap(({ content }) => (typeof content === 'string' ? [content] : []));
  expect(parts.length).toBeLessThanOrEqual(40);
  expect(contents.reduce((sum, content) => sum + content.length, 0)).toBeLessThanOrEqual(4_000);
  for (const content of contents) expect(content.trim()).not.toBe('');
  for (const row of parts.filter(({ type }) => type === 1)) {
    expect((row.components as unknown[]).length).toBeGreaterThanOrEqual(1);
    expect((row.components as unknown[]).length).toBeLessThanOrEqual(5);
  }
  const buttons = buttonsOf(message);
  for (const { label, custom_id: id } of buttons) {
    expect(label.length).toBeGreaterThanOrEqual(1);
    expect(label.length).toBeLessThanOrEqual(80);
    expect(id.length).toBeLessThanOrEqual(100);
  }
  expect(new Set(buttons.map(({ custom_id: id }) => id)).size).toBe(buttons.length);
  expect(message.allowedMentions).toEqual({ parse: [], repliedUser: false });
}
