import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { compileFunction } from 'node:vm';
import { z } from 'zod';
import type { Problem } from './form-refusal.ts';

// Discord's published API description, as zod schemas in strict mode: an unknown field is a mistake.

const SCHEMAS = [
  'CreateMessageInteractionCallbackRequestSchema',
  'UpdateMessageInteractionCallbackRequestSchema',
  'ApplicationCommandAutocompleteCallbackRequestSchema',
  'ModalInteractionCallbackRequestSchema',
  'IncomingWebhookRequestPartialSchema',
  'IncomingWebhookUpdateRequestPartialSchema',
  'MessageCreateRequestSchema',
  'MessageEditRequestPartialSchema',
  'ApplicationCommandUpdateRequestSchema',
  'CreatePrivateChannelRequestSchema',
  'CreateTextThreadWithMessageRequestSchema',
  'CreateTextThreadWithoutMessageRequestSchema',
  'UpdateThreadRequestPartialSchema',
  'UpdateGuildChannelRequestPartialSchema',
] as const;
export type SchemaName = (typeof SCHEMAS)[number];
export type Spec = Record<SchemaName, z.core.$ZodType>;

const SPEC_FILE = 'discord-api-spec/build/discord-api-spec.zod.js';
const IMPORT = 'import * as z from "zod/mini";';
const LOOSE = 'let zObject = z.object;';
const STRICT = 'let zObject = z.strictObject;';

let loading: Promise<Spec> | null = null;

/** Loads the description once, on first use: it takes a few hundred milliseconds. */
export const loadSpec = (): Promise<Spec> => (loading ??= compileSpec());

/**
 * The package builds its schemas while it is evaluated, so that its own switch for strictness comes too late.
 * Hence its text is compiled here with the one line changed.
 */
async function compileSpec(): Promise<Spec> {
  const source = readFileSync(specPath(), 'utf8');
  for (const needed of [IMPORT, LOOSE]) {
    if (source.split(needed).length !== 2) throw new Error(`${SPEC_FILE} has changed: "${needed}" must be there once`);
  }
  const mini = await import('zod/mini');
  const body = source
    .replace(IMPORT, '')
    .replace(LOOSE, STRICT)
    .replace(/^export const /gm, 'const ');
  const compiled: unknown = compileFunction(`${body}\nreturn { ${SCHEMAS.join(', ')} };`, ['z'])(mini);
  const schema = z.custom<z.core.$ZodType>((value) => typeof value === 'object' && value !== null && '_zod' in value);
  return z.record(z.enum(SCHEMAS), schema).parse(compiled);
}

function specPath(): string {
  // The package shows no path to `require`, so its folder is looked for where packages are.
  const folders = createRequire(import.meta.url).resolve.paths('discord-api-spec') ?? [];
  const path = folders.map((folder) => join(folder, SPEC_FILE)).find((candidate) => existsSync(candidate));
  if (!path) throw new Error(`${SPEC_FILE} is not installed; the contract can be switched off instead`);
  return path;
}

/** What the description says against a body. */
export function specProblems(schema: z.core.$ZodType, body: unknown): Problem[] {
  const parsed = z.core.safeParse(schema, body);
  return parsed.success ? [] : parsed.error.issues.flatMap((issue) => flatten(issue));
}

/** Of a union only the branch that was meant is told: the one whose `type` fits. */
function flatten(issue: z.core.$ZodIssue, above: PropertyKey[] = []): Problem[] {
  const path = [...above, ...issue.path];
  if (issue.code !== 'invalid_union') return [{ path, message: issue.message }];
  const missesType = (branch: z.core.$ZodIssue[]) =>
    branch.some((one) => one.path.length === 1 && one.path[0] === 'type');
  const [meant] = issue.errors.toSorted((a, b) => Number(missesType(a)) - Number(missesType(b)) || a.length - b.length);
  return meant?.length ? meant.flatMap((inner) => flatten(inner, path)) : [{ path, message: issue.message }];
}
