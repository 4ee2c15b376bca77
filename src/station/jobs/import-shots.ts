import type * as contract from '../../contract/index.ts';
import type { Finding } from '../../facts/index.ts';
import {
  decodeText,
  delimiterOf,
  type ImportPlan,
  type Jobs,
  jobLimits,
  type ListedShot,
  listBody,
  planImport,
  readShotList,
} from '../../job/index.ts';
import type { ShotListFile } from '../../serve/index.ts';
import { cutRows } from './cut-rows.ts';
import { type HasFrame, withoutStrangeFrames } from './frames-named.ts';
import { shotChangeOf } from './job-shape.ts';

export interface PlannedImport {
  readonly plan: ImportPlan;
  readonly report: Omit<contract.ImportReport, 'preview' | 'job'>;
}

/** What taking in a list would do. Throws `bad-text`, `no-job`, `job-finished`, `too-many-shots`. */
export async function importShots(
  jobs: Jobs,
  code: string,
  file: ShotListFile,
  has: HasFrame,
): Promise<PlannedImport> {
  return file.kind === 'csv'
    ? importCsv(jobs, code, file.bytes, has)
    : importJson(jobs, code, file.list, has);
}

async function importCsv(jobs: Jobs, code: string, bytes: Uint8Array, has: HasFrame): Promise<PlannedImport> {
  const { text, encoding, guessed } = decodeText(bytes);
  const reading = readShotList(cutRows(listBody(text), delimiterOf(text)));
  const { shots, findings } = await withoutStrangeFrames(has, reading.shots);
  const plan = planImport(jobs, code, shots);
  const isBare = reading.shots.length + reading.badLines + reading.findings.length === 0;
  const bare: Finding[] = isBare ? [{ code: 'shot-list.no-lines', args: {} }] : [];
  const report = {
    encoding,
    guessed,
    columns: [...reading.columns],
    unknownColumns: [...reading.unknownColumns],
    lines: plan.lines.map(({ changes, ...line }) => ({ ...line, changes: [...changes] })),
    reorders: plan.reorders,
    bad: reading.bad.map(({ line, finding }) => ({ line, finding: shapeOf(finding) })),
    badLines: reading.badLines,
    findings: [...reading.findings, ...bare, ...findings].map(shapeOf),
  };
  return { plan, report };
}

async function importJson(
  jobs: Jobs,
  code: string,
  list: Extract<ShotListFile, { readonly kind: 'json' }>['list'],
  has: HasFrame,
): Promise<PlannedImport> {
  const listed = list.shots.map(({ line, shot: { id, name, ...rest } }): ListedShot => {
    return { line, id: id ?? null, name, says: shotChangeOf(rest) };
  });
  const first = new Map<string, number>();
  for (const { id, line } of listed) if (id !== null && !first.has(id)) first.set(id, line);
  const isFirst = ({ id, line }: ListedShot): boolean => id === null || first.get(id) === line;
  const { shots, findings } = await withoutStrangeFrames(has, listed.filter(isFirst));
  const plan = planImport(jobs, code, shots);
  const twice = listed
    .filter((each) => !isFirst(each))
    .map(({ line, id }) => ({
      line,
      finding: { code: 'shot-list.id-twice', args: { line, id: id ?? '' } },
    }));
  const bad = [...list.bad, ...twice].sort((a, b) => a.line - b.line);
  return {
    plan,
    report: {
      encoding: null,
      guessed: false,
      columns: [],
      unknownColumns: [...list.unknown],
      lines: plan.lines.map(({ changes, ...line }) => ({ ...line, changes: [...changes] })),
      reorders: plan.reorders,
      bad: bad
        .slice(0, jobLimits.badLinesMax)
        .map(({ line, finding }) => ({ line, finding: shapeOf(finding) })),
      badLines: bad.length,
      findings: [...list.findings, ...findings].map(shapeOf),
    },
  };
}

function shapeOf({
  code,
  args,
}: {
  readonly code: string;
  readonly args: Readonly<Record<string, string | number>>;
}): {
  code: string;
  args: Record<string, string | number>;
} {
  return { code, args: { ...args } };
}
