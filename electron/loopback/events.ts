import type { ServerResponse } from 'node:http';
import type { HostEvent } from '../../core/shared/bridge.ts';
import { eventLine } from './encode.ts';
import { HEADERS } from './guards.ts';

/** The open event streams, one for each browser tab. */
export type EventStreams = {
  add(response: ServerResponse): void;
  send(event: HostEvent): void;
  close(): void;
};

const ALIVE_MS = 15_000;

export function openStreams(): EventStreams {
  const open = new Set<ServerResponse>();
  const send = (event: HostEvent): void => {
    const line = eventLine(event);
    for (const response of open) response.write(line);
  };
  const timer = setInterval(() => send({ event: 'alive' }), ALIVE_MS);
  timer.unref();
  return {
    add: (response) => {
      response.writeHead(200, { ...HEADERS, 'content-type': 'application/x-ndjson' });
      response.write(eventLine({ event: 'alive' }));
      open.add(response);
      response.once('close', () => open.delete(response));
    },
    send,
    close: () => {
      clearInterval(timer);
      for (const response of open) response.end();
    },
  };
}
