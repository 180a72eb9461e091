import type { HostEvent } from '../../core/shared/bridge.ts';
import type { Reply } from '../../core/shared/reply.ts';
import { bytesOut } from '../../core/shared/wire.ts';

/** A reply as JSON, its bytes as base64. */
export function replyText(reply: Reply): string {
  return JSON.stringify(bytesOut(reply, base64));
}

/** An event as one line. */
export function eventLine(event: HostEvent): string {
  return `${JSON.stringify(bytesOut(event, base64))}\n`;
}

function base64(bytes: Uint8Array): string {
  return Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength).toString('base64');
}
