/** What the first bytes of a picture say it is, and how large. */
export type PictureHead = {
  readonly mime: 'image/png' | 'image/jpeg';
  readonly widthPx: number;
  readonly heightPx: number;
};

/**
 * Kind and size of a PNG or JPEG by its own words, never by its name; null for anything else, for one that ends before
 * its end, and for kinds that documents do not take (interlaced or 16 bits a colour).
 * @source W3C PNG (third edition) 5.2, 11.2.1 IHDR; ITU-T T.81 B.1.1, B.2.2 frame header
 */
export function pictureHead(bytes: Uint8Array): PictureHead | null {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const found = pngHead(view) ?? jpegHead(view);
  return found && found.widthPx > 0 && found.heightPx > 0 ? found : null;
}

const PNG = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];
const IHDR = 0x49484452;
const IEND = 0x49454e44;

function pngHead(view: DataView): PictureHead | null {
  if (view.byteLength < 45 || PNG.some((byte, i) => view.getUint8(i) !== byte)) return null;
  if (view.getUint32(12) !== IHDR || view.getUint32(view.byteLength - 8) !== IEND) return null;
  const [bits, interlaced] = [view.getUint8(24), view.getUint8(28)];
  if (bits > 8 || interlaced !== 0) return null;
  return { mime: 'image/png', widthPx: view.getUint32(16), heightPx: view.getUint32(20) };
}

/** Frame headers that documents take: baseline, extended and progressive, Huffman coded. */
const FRAMES = [0xc0, 0xc1, 0xc2];

function jpegHead(view: DataView): PictureHead | null {
  const size = view.byteLength;
  if (size < 4 || view.getUint16(0) !== 0xffd8 || view.getUint16(size - 2) !== 0xffd9) return null;
  let at = 2;
  while (at + 9 < size && view.getUint8(at) === 0xff) {
    const marker = view.getUint8(at + 1);
    if (FRAMES.includes(marker)) {
      if (view.getUint8(at + 4) !== 8) return null;
      return { mime: 'image/jpeg', heightPx: view.getUint16(at + 5), widthPx: view.getUint16(at + 7) };
    }
    at += 2 + view.getUint16(at + 2);
  }
  return null;
}
