/**
 * Zips as an attacker or a broken disk makes them, written byte by byte after APPNOTE.TXT 6.3 (PKWARE), sections 4.3 and
 * 4.4: local header, data, central directory, end record. Whatever a header says can be made to differ from the truth.
 */

import { crc32, deflateRawSync } from 'node:zlib';

export interface ZipMember {
  name: string;
  content: Uint8Array;
  /** said of it instead of the truth */
  says?: { size?: number; crc?: number; method?: number; flags?: number };
}

export function zipOf(members: ZipMember[]): Uint8Array<ArrayBuffer> {
  const packedOnce = new Map<Uint8Array, Buffer>();
  const locals: Buffer[] = [];
  const directory: Buffer[] = [];
  let at = 0;
  for (const { name, content, says = {} } of members) {
    const packed = packedOnce.get(content) ?? deflateRawSync(content);
    packedOnce.set(content, packed);
    const path = Buffer.from(name);
    const fields = Buffer.alloc(26);
    fields.writeUInt16LE(20, 0); // version needed
    fields.writeUInt16LE(says.flags ?? 0x0800, 2); // names in UTF-8
    fields.writeUInt16LE(says.method ?? 8, 4); // deflate
    fields.writeUInt16LE(0x5c21, 8); // 1 January 2026
    fields.writeUInt32LE(says.crc ?? crc32(content), 10);
    fields.writeUInt32LE(packed.length, 14);
    fields.writeUInt32LE(says.size ?? content.length, 18);
    fields.writeUInt16LE(path.length, 22);
    const local = Buffer.concat([signature(0x04034b50), fields, path, packed]);
    const tail = Buffer.alloc(14);
    tail.writeUInt32LE(at, 10);
    directory.push(
      Buffer.concat([signature(0x02014b50), Buffer.from([20, 0]), fields, tail, path]),
    );
    locals.push(local);
    at += local.length;
  }
  const central = Buffer.concat(directory);
  const end = Buffer.alloc(18);
  const many = members.length > 0xffff;
  const count = many ? 0xffff : members.length;
  end.writeUInt16LE(count, 4);
  end.writeUInt16LE(count, 6);
  end.writeUInt32LE(central.length, 8);
  end.writeUInt32LE(at, 12);
  const zip64 = many ? zip64End(members.length, central.length, at) : Buffer.alloc(0);
  return Uint8Array.from(Buffer.concat([...locals, central, zip64, signature(0x06054b50), end]));
}

/** The end record of zip64 and its locator (sections 4.3.14 and 4.3.15), for more entries than 16 bits count. */
function zip64End(count: number, length: number, at: number): Buffer {
  const end = Buffer.alloc(52);
  end.writeBigUInt64LE(44n, 0);
  end.writeUInt16LE(45, 8);
  end.writeUInt16LE(45, 10);
  end.writeBigUInt64LE(BigInt(count), 20);
  end.writeBigUInt64LE(BigInt(count), 28);
  end.writeBigUInt64LE(BigInt(length), 36);
  end.writeBigUInt64LE(BigInt(at), 44);
  const locator = Buffer.alloc(16);
  locator.writeBigUInt64LE(BigInt(at + length), 4);
  locator.writeUInt32LE(1, 12);
  return Buffer.concat([signature(0x06064b50), end, signature(0x07064b50), locator]);
}

function signature(value: number): Buffer {
  const bytes = Buffer.alloc(4);
  bytes.writeUInt32LE(value);
  return bytes;
}
