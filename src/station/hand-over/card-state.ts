import { epochMsToRfc3339 } from '../../base/index.ts';
import { type CardCheck, type CardTakingIn, cardFilesNamedMax } from '../../contract/index.ts';
import type { Finding } from '../../facts/index.ts';
import type { CardProgress, CardReport } from '../../keep/index.ts';
import { countsOf } from './card-outcome.ts';
import { msToGo } from './to-go.ts';

/** A check as it begins. */
export function beginningCheck(id: string, folder: string, nowMs: number): CardCheck {
  return {
    id,
    folder,
    state: 'checking',
    startedAt: epochMsToRfc3339(nowMs),
    endedAt: null,
    files: 0,
    doneFiles: 0,
    bytes: 0,
    doneBytes: 0,
    toGoMs: null,
    counts: { safe: 0, once: 0, missing: 0, unread: 0 },
    mayBeWiped: false,
    findings: [],
    notSafe: [],
    passedOver: 0,
    copies: [],
    takingIn: null,
    byCommand: false,
    journalled: false,
  };
}

export function checkUnderWay(check: CardCheck, far: CardProgress, nowMs: number): CardCheck {
  const { doneFiles, files, doneBytes, bytes } = far;
  const tookMs = nowMs - Date.parse(check.startedAt);
  return { ...check, doneFiles, files, doneBytes, bytes, toGoMs: msToGo(doneBytes, bytes, tookMs) };
}

const worst = ['missing', 'unread', 'once'] as const;

export function checkDone(check: CardCheck, report: CardReport, nowMs: number): CardCheck {
  const { files, bytes, findings, passedOver, safe } = report;
  const notSafe = worst.flatMap((state) =>
    files.flatMap((file) =>
      file.state === state
        ? [{ path: file.path, sizeBytes: file.sizeBytes, state, findings: file.findings.map(plain) }]
        : [],
    ),
  );
  const folders = new Map<string, number>();
  for (const { copies } of files)
    for (const folder of copies) folders.set(folder, (folders.get(folder) ?? 0) + 1);
  return {
    ...check,
    state: 'done',
    endedAt: epochMsToRfc3339(nowMs),
    files: files.length,
    doneFiles: files.length,
    bytes,
    doneBytes: bytes,
    toGoMs: null,
    counts: countsOf(report),
    mayBeWiped: safe,
    findings: findings.map(plain),
    notSafe: notSafe.slice(0, cardFilesNamedMax),
    passedOver: passedOver.length,
    copies: [...folders].map(([folder, count]) => ({ folder, files: count })),
  };
}

/** The card that was checked is not the one that is in: whatever was proved, no card may be wiped by it. */
export function overtaken(check: CardCheck, isAway: boolean): CardCheck {
  const { folder } = check;
  const finding = { code: isAway ? 'card.away' : 'card.changed', args: { folder } };
  return { ...check, mayBeWiped: false, findings: [finding, ...check.findings] };
}

export function beginningTakingIn(
  camera: string,
  files: readonly { readonly sizeBytes: number }[],
): CardTakingIn {
  return {
    camera,
    state: 'running',
    files: files.length,
    taken: 0,
    bytes: files.reduce((sum, { sizeBytes }) => sum + sizeBytes, 0),
    takenBytes: 0,
    toGoMs: null,
    left: [],
  };
}

export function plain({ code, args }: Finding): { code: string; args: Record<string, string | number> } {
  return { code, args: { ...args } };
}
