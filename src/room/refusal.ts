/** A request that is refused in the way in which Discord refuses it. */
export class Refusal extends Error {
  readonly status: number;
  readonly code: number;
  readonly details: Record<string, unknown>;
  constructor(status: number, code: number, message: string, details: Record<string, unknown> = {}) {
    super(message);
    this.status = status;
    this.code = code;
    this.details = details;
  }
}

export const unknownChannel = () => new Refusal(404, 10003, 'Unknown Channel');
export const unknownMessage = () => new Refusal(404, 10008, 'Unknown Message');
export const unknownInteraction = () => new Refusal(404, 10062, 'Unknown interaction');
export const alreadyAcknowledged = () => new Refusal(400, 40060, 'Interaction has already been acknowledged.');
export const expiredToken = () => new Refusal(401, 50027, 'Invalid Webhook Token');
export const missingAccess = () => new Refusal(403, 50001, 'Missing Access');
export const missingPermissions = () => new Refusal(403, 50013, 'Missing Permissions');
export const cannotSendToUser = () => new Refusal(403, 50007, 'Cannot send messages to this user');
export const emptyMessage = () => new Refusal(400, 50006, 'Cannot send an empty message');
