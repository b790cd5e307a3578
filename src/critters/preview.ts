import { render } from '../discord/render.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import { cardView } from './card.view.ts';

/** A card as text, exactly as it would be sent, for contributors. */
export function previewCard(base: KnowledgeBase, id: string): string {
  const critter = base.critters.get(id);
  if (!critter) return `No entry ${id}. The id is the file name without .yaml.`;
  const [container] = render(cardView(base, critter, { audience: 'member' })).components;
  const parts = container && 'components' in container ? container.components : [];
  return parts
    .map((part) => {
      if ('content' in part) return part.content;
      if ('components' in part)
        return part.components.map((button) => ('label' in button ? `[${button.label}]` : '')).join(' ');
      return '---';
    })
    .join('\n');
}
