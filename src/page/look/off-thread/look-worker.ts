/** The thread that compiles looks and reads scenes for the page. */
import '../../plain-zod.ts';
import { readExr } from '../../../image/index.ts';
import { Compiler } from './compiler.ts';
import type { WorkReply, WorkRequest } from './messages.ts';

const compiler = new Compiler(() => performance.now());
/** The table that the page has. */
let sentKey: string | null = null;

addEventListener('message', ({ data }: MessageEvent<WorkRequest>) => {
  const { reply, moved } = replyTo(data);
  postMessage(reply, { transfer: moved });
});

function replyTo(request: WorkRequest): { reply: WorkReply; moved: ArrayBuffer[] } {
  const { id } = request;
  if (request.kind === 'scene') {
    const picture = readExr(new Uint8Array(request.bytes));
    return { reply: { id, kind: 'scene', picture }, moved: picture === null ? [] : [picture.halves.buffer] };
  }
  const { matrix, curve, table, tableKey, findings } = compiler.compile(
    request.look,
    request.profile,
    request.pace,
  );
  const isKnown = tableKey !== null && tableKey === sentKey;
  sentKey = tableKey;
  return {
    reply: { id, kind: 'compile', matrix, curve, table: isKnown ? 'known' : table, findings },
    moved: [],
  };
}
