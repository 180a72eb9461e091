import { randomUUID } from 'node:crypto';
import { writeFileSync } from 'node:fs';
import type { DocumentFile, Reply } from '../../core/shared/reply.ts';
import { CommandStopped, type DoorArguments, readDoorArguments } from '../door/arguments.ts';
import { callAs, openWay } from '../door/carry.ts';
import { listEntries } from '../door/list.ts';
import { replyText } from '../loopback/encode.ts';
import { exitCodeOf, StartStopped, sentenceOf } from '../refusal.ts';
import { tell, tellError } from '../tell.ts';

async function door(args: DoorArguments): Promise<number> {
  if (args.help) return print(tell('start.door.help'));
  if (args.list) return print(JSON.stringify(listEntries(), null, 2));
  const way = await openWay(args.dataDir);
  try {
    const call = { name: args.name, input: args.input, commandId: randomUUID() };
    const reply = args.as === null ? await way.call(call) : await callAs(way, args.as, args.pin, call);
    return answer(reply, args.save);
  } finally {
    await way.close();
  }
}

/** The reply as JSON on stdout; a refusal's sentence on stderr. */
function answer(reply: Reply, save: string | null): number {
  if (!reply.ok) {
    console.error(tellError(reply.error));
    print(replyText(reply));
    return 1;
  }
  const { value } = reply;
  if (save === null || !isFile(value)) return print(replyText(reply));
  writeFileSync(save, value.bytes);
  console.error(tell('start.door.saved', { file: save }));
  return print(replyText({ ...reply, value: { ...value, bytes: value.bytes.byteLength } }));
}

function isFile(value: unknown): value is DocumentFile {
  return typeof value === 'object' && value !== null && 'bytes' in value && value.bytes instanceof Uint8Array;
}

function print(text: string): number {
  console.log(text);
  return 0;
}

try {
  process.exitCode = await door(readDoorArguments(process.argv.slice(2)));
} catch (error) {
  if (error instanceof CommandStopped) console.error(error.message);
  else if (error instanceof StartStopped) console.error(sentenceOf(error.refusal));
  else throw error;
  process.exitCode = error instanceof StartStopped ? exitCodeOf(error.refusal) : 2;
}
