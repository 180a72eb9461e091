import type { DocumentFile } from '../shared/reply.ts';

export type Message = {
  /** '' leaves the address to the mail program. */
  readonly to: string;
  readonly from: string;
  readonly fromName: string;
  readonly subject: string;
  readonly body: string;
  readonly atMs: number;
  readonly attachments: readonly DocumentFile[];
};

const LINE = '\r\n';

/**
 * An unsent message with its attachments, to be opened in any mail program. Same input, same bytes.
 * @source RFC 5322 (headers, lines), RFC 2045 and 2046 (MIME), RFC 2047 (words), RFC 2231 (file names)
 */
export function emlDraft(message: Message): Uint8Array {
  const boundary = boundaryFor(message);
  const head = [
    ...(message.to === '' ? [] : [`To: ${oneLine(message.to)}`]),
    ...(message.from === '' ? [] : [`From: ${named(message.fromName)} <${oneLine(message.from)}>`]),
    `Subject: ${word(message.subject)}`,
    `Date: ${new Date(message.atMs).toUTCString().replace('GMT', '+0000')}`,
    'X-Unsent: 1',
    'MIME-Version: 1.0',
    `Content-Type: multipart/mixed; boundary="${boundary}"`,
  ];
  const text = [
    `--${boundary}`,
    'Content-Type: text/plain; charset=utf-8',
    'Content-Transfer-Encoding: base64',
    '',
    base64Lines(Buffer.from(message.body.replaceAll(/\r?\n/g, LINE), 'utf8')),
  ];
  const files = message.attachments.flatMap((file) => [
    `--${boundary}`,
    `Content-Type: ${file.mime}`,
    'Content-Transfer-Encoding: base64',
    `Content-Disposition: attachment;${LINE} filename*=UTF-8''${encodeURIComponent(file.fileName)}`,
    '',
    base64Lines(file.bytes),
  ]);
  return new Uint8Array(
    Buffer.from([...head, '', ...text, ...files, `--${boundary}--`, ''].join(LINE), 'utf8'),
  );
}

/** Never occurs in the parts: they are base64, which has no underscore. */
function boundaryFor(message: Message): string {
  return `part_${message.atMs}_${message.attachments.length}`;
}

/** Header values are one line, so that nothing typed can add a header. */
function oneLine(text: string): string {
  return text.replaceAll(/[\r\n]+/g, ' ').trim();
}

/** A name before an address. In plain ASCII all but letters, digits and a few signs is quoted: a comma would part two people. */
function named(name: string): string {
  const plain = oneLine(name);
  if (!isPlain(plain)) return word(plain);
  return /^[\w!#$%&'*+/=?^`{|}~ -]*$/.test(plain) ? plain : `"${plain.replaceAll(/["\\]/g, '\\$&')}"`;
}

function isPlain(text: string): boolean {
  return /^[\u0020-\u007e]*$/.test(text) && text.length < 900;
}

/** A header text; anything but plain ASCII as encoded words of at most 75 characters. */
function word(text: string): string {
  const plain = oneLine(text);
  if (isPlain(plain)) return plain;
  const pieces: string[] = [];
  let piece = '';
  for (const sign of plain) {
    // 45 bytes are 60 characters of base64: with the frame below 75.
    if (Buffer.byteLength(piece + sign) > 45) {
      pieces.push(piece);
      piece = sign;
    } else piece += sign;
  }
  return [...pieces, piece].map((p) => `=?utf-8?B?${Buffer.from(p).toString('base64')}?=`).join(`${LINE} `);
}

function base64Lines(bytes: Uint8Array): string {
  return (
    Buffer.from(bytes)
      .toString('base64')
      .match(/.{1,76}/g) ?? []
  ).join(LINE);
}
