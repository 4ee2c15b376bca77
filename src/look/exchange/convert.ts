import type { Finding } from '../../facts/index.ts';
import { currentVersion } from '../lift.ts';
import { activeParts, localParts } from '../local-parts.ts';
import type { Look } from '../schema.ts';
import { type TableError, tableErrorGoal } from '../table/table-error.ts';
import { type Corrections, chosenCorrections, theOne } from './choose-correction.ts';
import type { ClfDocument } from './clf.ts';
import { clfToCorrections, correctionToClf, correctionToLook, lookToCorrection } from './corrections.ts';
import { type ExportedLook, lookToClf, type TableNodes } from './look-to-clf.ts';
import type { AnyDocument } from './read-document.ts';
import { writeCdl } from './write-cdl.ts';
import { writeClf } from './write-clf.ts';

export const documentForms = ['look', 'clf', 'cc', 'ccc', 'cdl'] as const;
/** What a document may be written as; each but `look` is the extension of its files too. */
export type DocumentForm = (typeof documentForms)[number];

export interface ConvertWishes {
  /** Which of several corrections by its id; null: the only one. */
  readonly id: string | null;
  /** Which of several by its place in the document, counted from 1; for ids that are missing or there twice. */
  readonly number?: number | null;
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
      /** Along one edge of that table; null where none was needed. */
      readonly nodes: TableNodes | null;
    }
  | { readonly text: null; readonly findings: readonly Finding[] };

/** Writes a document in another form, or says why that cannot be. */
export function convertDocument(document: AnyDocument, form: DocumentForm, wishes: ConvertWishes): Converted {
  if (form === 'look') return toLookText(document, wishes);
  if (form === 'clf') return toClfText(document, wishes);
  const found = correctionsOf(document, wishes);
  if (found.corrections === null) return { text: null, findings: found.findings };
  const one = theOne(found);
  if (form === 'cc' && one.correction === null) return { text: null, findings: [one.several] };
  return { text: writeCdl(form, found.corrections), findings: found.findings, error: null, nodes: null };
}

function correctionsOf(document: AnyDocument, wishes: ConvertWishes): Corrections {
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
      return chosenCorrections(clfToCorrections(document.clf) ?? [], wishes, {
        code: 'look.clf-not-only-cdl',
        args: {},
      });
    case 'cdl':
      return chosenCorrections(document.corrections, wishes, { code: 'look.cdl-none', args: {} });
  }
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
  const { correction, several } = theOne(found);
  if (correction === null) return { look: null, findings: [several] };
  return { look: correctionToLook(correction, wishes.title), findings: found.findings };
}

function toLookText(document: AnyDocument, wishes: ConvertWishes): Converted {
  const { look, findings } = lookOfDocument(document, wishes);
  if (look === null) return { text: null, findings };
  return { text: `${JSON.stringify(look, null, 2)}\n`, findings, error: null, nodes: null };
}

function toClfText(document: AnyDocument, wishes: ConvertWishes): Converted {
  if (document.kind === 'clf') {
    return { text: writeClf(document.clf), findings: lostOf(document.clf), error: null, nodes: null };
  }
  if (document.kind === 'look') {
    const exported = exportLook(document.look);
    return isNothingForATable(exported.findings) ? { text: null, findings: exported.findings } : exported;
  }
  const found = correctionsOf(document, wishes);
  if (found.corrections === null) return { text: null, findings: found.findings };
  const { correction, several } = theOne(found);
  if (correction === null) return { text: null, findings: [several] };
  return { text: writeClf(correctionToClf(correction)), findings: found.findings, error: null, nodes: null };
}

/**
 * A look as CLF text, with a table of so many nodes along one edge. Findings: what a document cannot hold
 * (`look.table-left-out`, `look.nothing-for-a-table`, `look.clf-not-cut`), what had to be assumed about the light, `look.table-off`.
 */
export function exportLook(
  look: Look,
  wanted: TableNodes = 65,
): Extract<Converted, { readonly text: string }> {
  const { document, ...rest } = exportedTable(look, wanted);
  return { text: writeClf(withFigures(document, rest.error)), ...rest };
}

/** What {@link exportLook} would write, and its findings, for whoever wants to know before the text is made. */
export function exportedTable(look: Look, wanted: TableNodes = 65): ExportedLook {
  const { document, error, nodes, findings } = lookToClf(look, wanted);
  return {
    document,
    findings: [
      ...notHeld(look, document),
      ...findings.map(ofNoFrame),
      ...tableFindings(error, nodes === 129 ? null : 129),
    ],
    error,
    nodes,
  };
}

/** What a rendering does and a document does not. */
function notHeld(look: Look, { nodes }: ClfDocument): readonly Finding[] {
  const parts = activeParts(localParts(look)).join(' ');
  const [only] = nodes;
  const isMatrix = nodes.length === 1 && only?.kind === 'Matrix';
  if (parts !== '' && isMatrix && only.rows.every((value, at) => value === (at % 5 === 0 ? 1 : 0))) {
    return [{ code: 'look.nothing-for-a-table', args: { parts } }];
  }
  const leftOut: readonly Finding[] = parts === '' ? [] : [{ code: 'look.table-left-out', args: { parts } }];
  return isMatrix ? [...leftOut, { code: 'look.clf-not-cut', args: {} }] : leftOut;
}

/** Whether a document of this look would do nothing, while the look does something. */
export function isNothingForATable(findings: readonly Finding[]): boolean {
  return findings.some(({ code }) => code === 'look.nothing-for-a-table');
}

/** A frame without a target is spoken of where there is a frame. */
function ofNoFrame(finding: Finding): Finding {
  return finding.code === 'look.no-target' ? { code: 'look.table-no-target', args: {} } : finding;
}

function lostOf({ notKept = [] }: ClfDocument): readonly Finding[] {
  return notKept.length === 0 ? [] : [{ code: 'look.clf-not-kept', args: { names: notKept.join(' ') } }];
}

/** The figures stand in the document too, where whoever gets it reads them. */
function withFigures(document: ClfDocument, error: TableError | null): ClfDocument {
  if (error === null) return document;
  const figures = `CIEDE2000 against the formula: mean ${error.mean.toFixed(3)}, 99.9 % under ${error.p999.toFixed(3)}`;
  return { ...document, descriptions: [...document.descriptions, figures] };
}

/**
 * Said of a table that is further off than it should be: `look.table-off`. `finerNodes`: of a table that would be nearer
 * and can be asked for.
 */
export function tableFindings(error: TableError | null, finerNodes: TableNodes | null): readonly Finding[] {
  if (error === null || (error.mean < tableErrorGoal.mean && error.p999 < tableErrorGoal.p999)) return [];
  const round = (value: number): number => Math.round(value * 1000) / 1000;
  const finer = finerNodes === null ? {} : { finerNodes };
  return [{ code: 'look.table-off', args: { mean: round(error.mean), p999: round(error.p999), ...finer } }];
}
