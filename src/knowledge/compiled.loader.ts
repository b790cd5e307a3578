import { readFileSync } from 'node:fs';
import { KNOWLEDGE_FORMAT, indexKnowledge, type CompiledKnowledge, type KnowledgeBase } from './knowledge-base.ts';

/**
 * Reads the compiled knowledge base. It was checked when it was compiled, so only its format is looked at here.
 *
 * @throws Error naming the file when it is missing, damaged or of another format.
 */
export function loadCompiledKnowledge(file: string | URL): KnowledgeBase {
  let compiled: CompiledKnowledge;
  try {
    compiled = JSON.parse(readFileSync(file, 'utf8')) as CompiledKnowledge;
  } catch (cause) {
    throw new Error(`The knowledge base ${String(file)} cannot be read. Build it anew: npm run build`, { cause });
  }
  if (compiled.format !== KNOWLEDGE_FORMAT)
    throw new Error(
      `The knowledge base ${String(file)} is of format ${compiled.format}, expected ${KNOWLEDGE_FORMAT}. Build it anew: npm run build`,
    );
  return indexKnowledge(compiled);
}
