import { expect, test } from 'vitest';
import { emlDraft } from '#core/documents/eml.ts';

function headOf(fromName: string, subject: string): string {
  const message = { to: '', from: 'john.q.public@example.com', fromName, subject, body: 'x', atMs: 0 };
  return new TextDecoder().decode(emlDraft({ ...message, attachments: [] }));
}

test('a name with a stop or a comma is quoted, so that it stays one sender', () => {
  /* RFC 5322, appendix A.1.2: From: "Joe Q. Public" <john.q.public@example.com> */
  expect(headOf('Joe Q. Public', 'x')).toContain('From: "Joe Q. Public" <john.q.public@example.com>\r\n');
  expect(headOf('Ash, Birch & Sons', 'x')).toContain('From: "Ash, Birch & Sons" <');
  expect(headOf('The "Shed" \\', 'x')).toContain('From: "The \\"Shed\\" \\\\" <');
  expect(headOf('Paintwork', 'x')).toContain('From: Paintwork <');
});

test('a name that is not plain ASCII goes as encoded words', () => {
  expect(headOf('Müller, Söhne', 'x')).toContain('From: =?utf-8?B?TcO8bGxlciwgU8O2aG5l?= <');
});

test('a subject keeps its signs and stays one line', () => {
  expect(headOf('x', 'Quote 5 for "Blue" <RS>\r\nBcc: all@example.com')).toContain(
    'Subject: Quote 5 for "Blue" <RS> Bcc: all@example.com\r\n',
  );
});
