const BROKEN = /^(UND_ERR_SOCKET|ECONNRESET|EPIPE|UND_ERR_CONNECT_TIMEOUT)$/;

/**
 * Sends, and once more when the connection broke on the way. Whether the first try arrived is unknown, so what is sent
 * must be safe to repeat: an interaction takes one answer only (40060), a message carries a nonce.
 */
export async function onceMore<T>(send: () => Promise<T>): Promise<T> {
  try {
    return await send();
  } catch (error) {
    if (!isBrokenConnection(error)) throw error;
    return send();
  }
}

/** Whether an error says that the connection broke, as against an answer of Discord. */
export function isBrokenConnection(error: unknown): boolean {
  for (let at = error; at instanceof Error; at = at.cause)
    if (BROKEN.test(String(Reflect.get(at, 'code')))) return true;
  return false;
}
