// What the painter and its worker thread say to each other.

export type PaintSetting = { fonts: readonly string[] };
export type PaintOrder = { id: number; svg: string; width: number };
export type PaintAnswer = { id: number; png: Uint8Array } | { id: number; problem: string };
