/** Which of a member’s own offers they bring, by what they typed: numbers, "all" or "none"; null: all. */
export function bringRead(typed: string | null, own: readonly number[]): { offers: number[]; unknown: string[] } {
  const words = (typed ?? 'all').normalize('NFKC').trim().toLowerCase();
  if (words === '' || words === 'all') return { offers: [...own], unknown: [] };
  if (words === 'none' || words === 'nothing') return { offers: [], unknown: [] };
  const asked = [...new Set(words.split(/[\s,;]+|\band\b/).map((word) => word.replace(/^#/, '')))].filter(Boolean);
  const isOwn = (word: string) => /^\d{1,9}$/.test(word) && own.includes(Number(word));
  return { offers: asked.filter(isOwn).map(Number), unknown: asked.filter((word) => !isOwn(word)).slice(0, 10) };
}
