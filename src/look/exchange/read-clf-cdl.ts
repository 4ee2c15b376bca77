import type { ClfCdl } from './clf.ts';
import { DocumentProblem } from './problem.ts';
import { readCdlValues } from './read-cdl.ts';
import type { XmlElement } from './xml.ts';

/** The second name of each is how versions before 3.0 wrote it. */
const styles: ReadonlyMap<string, ClfCdl['style']> = new Map([
  ['Fwd', 'Fwd'],
  ['v1.2_Fwd', 'Fwd'],
  ['Rev', 'Rev'],
  ['v1.2_Rev', 'Rev'],
  ['FwdNoClamp', 'FwdNoClamp'],
  ['noClampFwd', 'FwdNoClamp'],
  ['RevNoClamp', 'RevNoClamp'],
  ['noClampRev', 'RevNoClamp'],
]);

export function readCdlNode(step: XmlElement): ClfCdl {
  const given = step.attributes.get('style') ?? 'Fwd';
  const style = styles.get(given);
  if (style === undefined)
    throw new DocumentProblem('look.clf-value', { node: step.name, what: 'style', value: given });
  return { kind: 'ASC_CDL', style, cdl: readCdlValues(step) };
}
