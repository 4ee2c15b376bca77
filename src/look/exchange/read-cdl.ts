import type { Finding } from '../../facts/index.ts';
import { parameters } from '../parameters.ts';
import { type Cdl, cdlSchema } from '../schema.ts';
import { defaultExchangeLimits, type ExchangeLimits } from './limits.ts';
import { attempt, DocumentProblem, type ReadDocument } from './problem.ts';
import { childNamed, childrenNamed, numbersIn, parseXml, type XmlElement } from './xml.ts';

/** One correction of an ASC CDL document. */
export interface ColorCorrection {
  readonly id: string;
  readonly description: string;
  readonly cdl: Cdl;
}

/**
 * Reads the documents of the ASC CDL, release 1.2: one correction (.cc), a collection (.ccc), or a list of decisions
 * (.cdl). Findings: `look.xml-*`, `look.cdl-*`.
 */
export function readCdl(
  text: string,
  limits: ExchangeLimits = defaultExchangeLimits,
): ReadDocument<readonly ColorCorrection[]> {
  return attempt(() => correctionsOf(parseXml(text, limits)));
}

export const cdlRoots: readonly string[] = [
  'ColorCorrection',
  'ColorCorrectionCollection',
  'ColorDecisionList',
];

export function correctionsOf(root: XmlElement): readonly ColorCorrection[] {
  const elements = correctionElements(root);
  if (elements.length === 0) throw new DocumentProblem('look.cdl-none');
  return elements.map((element, index) => ({
    id: element.attributes.get('id') ?? '',
    description: descriptionOf(element),
    cdl: readCdlValues(element, elements.length > 1 ? index + 1 : null),
  }));
}

function correctionElements(root: XmlElement): readonly XmlElement[] {
  switch (root.name) {
    case 'ColorCorrection':
      return [root];
    case 'ColorCorrectionCollection':
      return childrenNamed(root, 'ColorCorrection');
    case 'ColorDecisionList':
      return childrenNamed(root, 'ColorDecision').flatMap((decision) =>
        childrenNamed(decision, 'ColorCorrection'),
      );
    default:
      throw new DocumentProblem('look.cdl-no-list', { found: root.name });
  }
}

/** Of the correction, or else of its slope, offset and power. */
function descriptionOf(element: XmlElement): string {
  const sop = childNamed(element, 'SOPNode') ?? childNamed(element, 'ASC_SOP');
  const own =
    childNamed(element, 'Description') ?? (sop === undefined ? undefined : childNamed(sop, 'Description'));
  return own?.text.trim().slice(0, 400) ?? '';
}

/**
 * Slope, offset, power and saturation inside an element, with the other spellings that the release allows (from memory);
 * one of the two parts may be absent, and is neutral then. `number`: its place in a document of several. Throws
 * `DocumentProblem`: `look.cdl-empty`; `look.cdl-value` with `count`, or with `min` and `max`.
 */
export function readCdlValues(element: XmlElement, number: number | null = null): Cdl {
  // What a refusal names it by.
  const named = { id: element.attributes.get('id') ?? '', ...(number === null ? {} : { number }) };
  const sop = childNamed(element, 'SOPNode') ?? childNamed(element, 'ASC_SOP');
  const sat =
    childNamed(element, 'SatNode') ?? childNamed(element, 'SATNode') ?? childNamed(element, 'ASC_SAT');
  if (sop === undefined && sat === undefined && element.name !== 'ASC_CDL') {
    throw new DocumentProblem('look.cdl-empty', named);
  }
  const parsed = cdlSchema.safeParse({
    ...(sop === undefined
      ? {}
      : {
          slope: numbers(sop, 'Slope', named),
          offset: numbers(sop, 'Offset', named),
          power: numbers(sop, 'Power', named),
        }),
    ...(sat === undefined ? {} : { saturation: numbers(sat, 'Saturation', named)[0] }),
  });
  if (parsed.success) return parsed.data;
  const [what = 'slope'] = parsed.error.issues[0]?.path ?? [];
  const { min, max } = bounds[String(what)] ?? parameters['cdl.slope'];
  throw new DocumentProblem('look.cdl-value', { what: String(what), min, max, ...named });
}

/** Of the parameter each is. */
const bounds: Readonly<Record<string, { readonly min: number; readonly max: number }>> = {
  slope: parameters['cdl.slope'],
  offset: parameters['cdl.offset'],
  power: parameters['cdl.power'],
  saturation: parameters['cdl.saturation'],
};

function numbers(element: XmlElement, name: string, named: Finding['args']): number[] {
  const child = childNamed(element, name);
  const values = child === undefined ? null : numbersIn(child.text);
  const expected = name === 'Saturation' ? 1 : 3;
  if (values === null || values.length !== expected) {
    throw new DocumentProblem('look.cdl-value', { what: name.toLowerCase(), count: expected, ...named });
  }
  return [...values];
}
