/** Discord's markdown as a reader sees it: without its marks, escapes undone, list points kept. */
export function asRead(markdown: string): string {
  return markdown
    .split('\n')
    .map((line) =>
      line
        .replace(/^(?:-# |#{1,3} |> )/, '')
        .replace(
          /\\([^A-Za-z0-9\s])|(\*\*\*|\*\*|\*|__|~~|\|\|)/g,
          (_whole, escaped: string | undefined) => escaped ?? '',
        )
        .replaceAll('\u200b', ''),
    )
    .join('\n');
}
