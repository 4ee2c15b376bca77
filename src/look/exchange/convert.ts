import type { Finding } from '../../facts/index.ts';
import { currentVersion } from '../lift.ts';
import type { Look } from '../schema.ts';
import { type TableError, tableErrorGoal } from '../table/table-error.ts';
import type { ClfDocument } from './clf.ts';
import { clfToCorrections, correctionToClf, correctionToLook, lookToCorrection } from './corrections.ts';
import { lookToClf } from './look-to-clf.ts';
import type { ColorCorrection } from './read-cdl.ts';
import type { AnyDocument } from './read-document.ts';
import { writeCdl } from './write-cdl.ts';
import { writeClf } from './write-clf.ts';

export const documentForms = ['look', 'clf', 'cc', 'ccc', 'cdl'] as const;
/** What a document may be written as; each but `look` is the extension of its files too. */
export type DocumentForm = (typeof documentForms)[number];

export interface ConvertWishes {
  /** Which of several corrections; null: the only one. */
  readonly id: string | null;
  /** Title of a look where a correction has no id. */
  readonly title: string;
}

export type Converted =
  | {
      readonly text: string;
      /** What was left out or is not as near as it should be. */
      readonly findings: readonly Finding[];
      /** Of a table that was made. */
      readonly error: TableError | null;
    }
  | { readonly text: null; readonly findings: readonly Finding[] };

/** Writes a document in another form, or says why that cannot be. */
export function convertDocument(document: AnyDocument, form: DocumentForm, wishes: ConvertWishes): Converted {
  if (form === 'look') return toLookText(document, wishes);
  if (form === 'clf') return toClfText(document, wishes);
  const found = correctionsOf(document, wishes);
  if (found.corrections === null) return { text: null, findings: found.findings };
  const [first, ...more] = found.corrections;
  if (form === 'cc' && more.length > 0) return refused(several(found.corrections));
  return { text: writeCdl(form, [first, ...more]), findings: found.findings, error: null };
}

type Corrections =
  | {
      readonly corrections: readonly [ColorCorrection, ...ColorCorrection[]];
      readonly findings: readonly Finding[];
    }
  | { readonly corrections: null; readonly findings: readonly Finding[] };

function correctionsOf(document: AnyDocument, { id }: ConvertWishes): Corrections {
  switch (document.kind) {
    case 'look': {
      const { correction, leftOut } = lookToCorrection(document.look);
      const parts = leftOut.join(' ');
      return {
        corrections: [correction],
        findings: parts === '' ? [] : [{ code: 'look.left-out', args: { parts } }],
      };
    }
    case 'clf':
      return chosen(clfToCorrections(document.clf) ?? [], id, { code: 'look.clf-not-only-cdl', args: {} });
    case 'cdl':
      return chosen(document.corrections, id, { code: 'look.cdl-none', args: {} });
  }
}

function chosen(all: readonly ColorCorrection[], id: string | null, none: Finding): Corrections {
  const [first, ...more] = id === null ? all : all.filter((each) => each.id === id);
  if (first !== undefined) return { corrections: [first, ...more], findings: [] };
  return {
    corrections: null,
    findings: [all.length === 0 || id === null ? none : { code: 'look.no-such-correction', args: { id } }],
  };
}

/** The look that a document is, or would be: a correction becomes one that does nothing else. */
export function lookOfDocument(
  document: AnyDocument,
  wishes: ConvertWishes,
):
  | { readonly look: Look; readonly findings: readonly Finding[] }
  | { readonly look: null; readonly findings: readonly Finding[] } {
  if (document.kind === 'look') {
    const { look, versionRead: version } = document;
    const lifted: Finding = { code: 'look.lifted', args: { version, currentVersion } };
    return { look, findings: version === currentVersion ? [] : [lifted] };
  }
  const found = correctionsOf(document, wishes);
  if (found.corrections === null) return { look: null, findings: found.findings };
  const [first, ...more] = found.corrections;
  if (more.length > 0) return { look: null, findings: [several(found.corrections)] };
  return { look: correctionToLook(first, wishes.title), findings: [] };
}

function toLookText(document: AnyDocument, wishes: ConvertWishes): Converted {
  const { look, findings } = lookOfDocument(document, wishes);
  if (look === null) return { text: null, findings };
  return { text: `${JSON.stringify(look, null, 2)}\n`, findings, error: null };
}

function toClfText(document: AnyDocument, wishes: ConvertWishes): Converted {
  if (document.kind === 'clf') return { text: writeClf(document.clf), findings: [], error: null };
  if (document.kind === 'look') return exportLook(document.look, 65);
  const found = correctionsOf(document, wishes);
  if (found.corrections === null) return { text: null, findings: found.findings };
  const [first, ...more] = found.corrections;
  if (more.length > 0) return refused(several(found.corrections));
  return { text: writeClf(correctionToClf(first)), findings: [], error: null };
}

/** A look as CLF text, with a table of so many nodes. */
export function exportLook(look: Look, nodes: 33 | 65 | 129): Extract<Converted, { readonly text: string }> {
  const { document, error } = lookToClf(look, nodes);
  return { text: writeClf(withFigures(document, error)), findings: tableFindings(error), error };
}

/** The figures stand in the document too, where whoever gets it reads them. */
function withFigures(document: ClfDocument, error: TableError | null): ClfDocument {
  if (error === null) return document;
  const figures = `CIEDE2000 against the formula: mean ${error.mean.toFixed(3)}, 99.9 % under ${error.p999.toFixed(3)}`;
  return { ...document, descriptions: [...document.descriptions, figures] };
}

/** Said of a table that is further off than it should be: `look.table-off`. */
export function tableFindings(error: TableError | null): readonly Finding[] {
  if (error === null || (error.mean < tableErrorGoal.mean && error.p999 < tableErrorGoal.p999)) return [];
  const round = (value: number): number => Math.round(value * 1000) / 1000;
  return [{ code: 'look.table-off', args: { mean: round(error.mean), p999: round(error.p999) } }];
}

function several(corrections: readonly ColorCorrection[]): Finding {
  const ids = corrections
    .slice(0, 10)
    .map(({ id }) => id || '(no id)')
    .join(', ');
  return { code: 'look.several-corrections', args: { corrections: corrections.length, ids } };
}

function refused(finding: Finding): Converted {
  return { text: null, findings: [finding] };
}
