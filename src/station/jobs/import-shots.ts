import type * as contract from '../../contract/index.ts';
import {
  decodeText,
  delimiterOf,
  type ImportPlan,
  type Jobs,
  type ListedShot,
  listBody,
  planImport,
  readShotList,
} from '../../job/index.ts';
import type { ShotListFile } from '../../serve/index.ts';
import { cutRows } from './cut-rows.ts';
import { shotChangeOf } from './job-shape.ts';

export interface PlannedImport {
  readonly plan: ImportPlan;
  readonly report: Omit<contract.ImportReport, 'preview' | 'job'>;
}

/** What taking in a list would do. Throws `bad-text`, `no-job`, `job-finished`, `too-many-shots`. */
export function importShots(jobs: Jobs, code: string, file: ShotListFile): PlannedImport {
  return file.kind === 'csv' ? importCsv(jobs, code, file.bytes) : importJson(jobs, code, file.list);
}

function importCsv(jobs: Jobs, code: string, bytes: Uint8Array): PlannedImport {
  const { text, encoding, guessed } = decodeText(bytes);
  const reading = readShotList(cutRows(listBody(text), delimiterOf(text)));
  const plan = planImport(jobs, code, reading.shots);
  const report = {
    encoding,
    guessed,
    columns: [...reading.columns],
    unknownColumns: [...reading.unknownColumns],
    lines: plan.lines.map(({ changes, ...line }) => ({ ...line, changes: [...changes] })),
    reorders: plan.reorders,
    bad: reading.bad.map(({ line, finding }) => ({ line, finding: shapeOf(finding) })),
    badLines: reading.badLines,
    findings: reading.findings.map(shapeOf),
  };
  return { plan, report };
}

function importJson(jobs: Jobs, code: string, list: contract.ShotList): PlannedImport {
  const listed = list.shots.map(({ id, name, ...rest }, index): ListedShot => {
    return { line: index + 1, id: id ?? null, name, says: shotChangeOf(rest) };
  });
  const twice = listed.filter(
    ({ id }, index) => id !== null && listed.findIndex((each) => each.id === id) < index,
  );
  const plan = planImport(
    jobs,
    code,
    listed.filter((each) => !twice.includes(each)),
  );
  const bad = twice.map(({ line, id }) => ({
    line,
    finding: { code: 'shot-list.id-twice', args: { line, id: id ?? '' } },
  }));
  return {
    plan,
    report: {
      encoding: null,
      guessed: false,
      columns: [],
      unknownColumns: [],
      lines: plan.lines.map(({ changes, ...line }) => ({ ...line, changes: [...changes] })),
      reorders: plan.reorders,
      bad,
      badLines: bad.length,
      findings: [],
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
