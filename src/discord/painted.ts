import type { Block, MessageView } from './message-view.ts';

/** Turns SVG into a PNG of this width; rejects when it cannot, or not in time. */
export type Paint = (svg: string, width: number) => Promise<Buffer>;

/**
 * The view with its pictures painted. A picture that cannot be painted is left out, since everything on it is said in
 * words as well: an answer never waits for, or fails with, a drawing.
 */
export async function painted(view: MessageView, paint: Paint): Promise<MessageView> {
  if (!view.blocks.some(({ kind }) => kind === 'picture')) return view;
  const blocks = await Promise.all(view.blocks.map((block) => paintBlock(block, paint)));
  return { ...view, blocks: blocks.flat() };
}

async function paintBlock(block: Block, paint: Paint): Promise<Block[]> {
  if (block.kind !== 'picture') return [block];
  try {
    const { svg, width, alt } = await block.draw();
    return [{ ...block, painted: { png: await paint(svg, width), alt } }];
  } catch {
    return [];
  }
}
