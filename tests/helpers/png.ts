import { crc32, deflateSync } from 'node:zlib';

/** A PNG of one colour with a hole in it, written by hand after W3C PNG: 8 bits, colour type 6 with alpha or 2 without. */
export function pngOf(width: number, height: number, alpha = true): Buffer {
  const perDot = alpha ? 4 : 3;
  const rows = Buffer.alloc(height * (1 + width * perDot));
  for (let y = 0; y < height; y += 1)
    for (let x = 0; x < width; x += 1) {
      const hole = (x - width / 2) ** 2 + (y - height / 2) ** 2 < (height / 4) ** 2;
      const colour = hole && !alpha ? [255, 255, 255] : [24, 88, 104];
      rows.set(alpha ? [...colour, hole ? 0 : 255] : colour, y * (1 + width * perDot) + 1 + x * perDot);
    }
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width, 0);
  head.writeUInt32BE(height, 4);
  head.set([8, alpha ? 6 : 2, 0, 0, 0], 8);
  const signature = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
  const parts = [chunk('IHDR', head), chunk('IDAT', deflateSync(rows)), chunk('IEND', Buffer.alloc(0))];
  return Buffer.concat([signature, ...parts]);
}

function chunk(name: string, data: Buffer): Buffer {
  const body = Buffer.concat([Buffer.from(name, 'latin1'), data]);
  const made = Buffer.alloc(body.length + 8);
  made.writeUInt32BE(data.length, 0);
  body.copy(made, 4);
  made.writeUInt32BE(crc32(body), body.length + 4);
  return made;
}
