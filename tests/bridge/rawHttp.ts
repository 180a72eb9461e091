import { request } from 'node:http';

export type RawAnswer = {
  readonly status: number;
  readonly headers: NodeJS.Dict<string | string[]>;
  readonly body: string;
};

/** One request as bytes on the wire: fetch would tidy the path and forbid the headers that are tested here. */
export function rawHttp(
  origin: string,
  options: {
    readonly method?: string;
    readonly path?: string;
    readonly headers?: Readonly<Record<string, string>>;
    readonly body?: string;
  },
): Promise<RawAnswer> {
  const { hostname, port } = new URL(origin);
  return new Promise((resolve, reject) => {
    const sent = request(
      {
        hostname,
        port,
        path: options.path ?? '/',
        method: options.method ?? 'GET',
        headers: { ...options.headers },
      },
      (answer) => {
        const chunks: Buffer[] = [];
        answer.on('data', (chunk: Buffer) => chunks.push(chunk));
        answer.on('end', () =>
          resolve({
            status: answer.statusCode ?? 0,
            headers: answer.headers,
            body: Buffer.concat(chunks).toString('utf8'),
          }),
        );
      },
    );
    sent.on('error', reject);
    sent.end(options.body);
  });
}

/** A request as our own page sends it, with single parts replaced. */
export function pagePost(
  origin: string,
  path: string,
  value: unknown,
  headers: Readonly<Record<string, string>> = {},
): Promise<RawAnswer> {
  const body = typeof value === 'string' ? value : JSON.stringify(value);
  return rawHttp(origin, {
    method: 'POST',
    path,
    body,
    headers: {
      origin,
      'content-type': 'application/json',
      'content-length': String(Buffer.byteLength(body)),
      ...headers,
    },
  });
}
