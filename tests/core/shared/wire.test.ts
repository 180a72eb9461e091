import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bytesIn, bytesOut } from '#core/shared/wire.ts';

const to = (bytes: Uint8Array): string => Buffer.from(bytes).toString('base64');
const from = (text: string): Uint8Array => new Uint8Array(Buffer.from(text, 'base64'));

describe('bytes on the wire', () => {
  it('travel as base64 wherever they stand, and all else as it is', () => {
    const value = {
      fileName: 'a.pdf',
      bytes: new Uint8Array([1, 2, 255]),
      list: [new Uint8Array(0), null, 3],
    };
    // AQL/ is 01 02 FF by RFC 4648, section 4.
    const wire = { fileName: 'a.pdf', bytes: { $bytes: 'AQL/' }, list: [{ $bytes: '' }, null, 3] };
    expect(bytesOut(value, to)).toEqual(wire);
    expect(bytesIn(wire, from)).toEqual(value);
  });

  it('are only taken for bytes when nothing stands beside them', () => {
    const odd = [{ $bytes: 'AQL/', more: 1 }, { $bytes: 7 }, { bytes: 'AQL/' }];
    expect(bytesIn(odd, from)).toEqual(odd);
  });

  it('come back as they went, through JSON', () => {
    const plain = fc.oneof(fc.string(), fc.integer(), fc.boolean(), fc.constant(null), fc.uint8Array());
    const { tree } = fc.letrec((again) => ({
      tree: fc.oneof(
        { maxDepth: 3 },
        plain,
        fc.array(again('tree'), { maxLength: 4 }),
        fc.dictionary(fc.stringMatching(/^[a-z]{1,5}$/), again('tree'), {
          maxKeys: 4,
          noNullPrototype: true,
        }),
      ),
    }));
    fc.assert(
      fc.property(tree, (value) => {
        expect(bytesIn(JSON.parse(JSON.stringify(bytesOut(value, to))), from)).toEqual(value);
      }),
      { seed: 64, numRuns: 300 },
    );
  });
});
