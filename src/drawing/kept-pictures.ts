/** Paints an SVG at a width. */
type Paint = (svg: string, width: number) => Promise<Buffer>;

/** About 110 kB each: the plates that a club asks for in a month. */
const KEPT = 120;

/** Keeps what was painted last, since clubs ask for the same few plates again and again. */
export function keepingPictures(paint: Paint): Paint {
  const kept = new Map<string, Buffer>();
  return async (svg, width) => {
    const key = `${width} ${svg}`;
    const known = kept.get(key);
    const png = known ?? (await paint(svg, width));
    kept.delete(key);
    kept.set(key, png);
    for (const oldest of kept.keys()) {
      if (kept.size <= KEPT) break;
      kept.delete(oldest);
    }
    return png;
  };
}
