import { SaxesParser } from 'saxes';
import { defaultExchangeLimits, type ExchangeLimits } from './limits.ts';
import { DocumentProblem } from './problem.ts';

/** An element as CLF and CDL use it: names without their namespace's prefix, text without the children's. */
export interface XmlElement {
  readonly name: string;
  readonly attributes: ReadonlyMap<string, string>;
  readonly children: readonly XmlElement[];
  readonly text: string;
}

interface OpenElement extends XmlElement {
  readonly children: XmlElement[];
  text: string;
}

/**
 * Reads an XML 1.0 document. Document types are refused, and with them every entity but the five of XML itself; nothing is
 * ever fetched. Throws `DocumentProblem`: `look.xml-too-long`, `-doctype`, `-broken`, `-too-deep`, `-too-many`.
 */
export function parseXml(text: string, limits: ExchangeLimits = defaultExchangeLimits): XmlElement {
  const { textCharactersMax, depthMax, elementsMax, attributesMax } = limits;
  if (text.length > textCharactersMax) throw new DocumentProblem('look.xml-too-long', { textCharactersMax });
  const parser = new SaxesParser({ xmlns: true, position: true });
  const open: OpenElement[] = [];
  const roots: XmlElement[] = [];
  let elements = 0;
  parser.on('doctype', () => {
    throw new DocumentProblem('look.xml-doctype');
  });
  parser.on('error', (error) => {
    throw new DocumentProblem('look.xml-broken', {
      line: parser.line,
      problem: withoutPosition(error.message),
    });
  });
  parser.on('opentag', ({ local, attributes }) => {
    elements += 1;
    if (open.length >= depthMax) throw new DocumentProblem('look.xml-too-deep', { depthMax });
    if (elements > elementsMax) throw new DocumentProblem('look.xml-too-many', { elementsMax });
    const pairs = Object.values(attributes);
    if (pairs.length > attributesMax) throw new DocumentProblem('look.xml-too-many', { attributesMax });
    const element: OpenElement = {
      name: local,
      attributes: new Map(pairs.map((attribute) => [attribute.local, attribute.value])),
      children: [],
      text: '',
    };
    (open.at(-1)?.children ?? roots).push(element);
    open.push(element);
  });
  parser.on('closetag', () => {
    open.pop();
  });
  const addText = (piece: string): void => {
    const inside = open.at(-1);
    if (inside !== undefined) inside.text += piece;
  };
  parser.on('text', addText);
  parser.on('cdata', addText);
  // A byte order mark is no part of the document.
  parser.write(text.replace(/^\ufeff/, '')).close();
  const [root] = roots;
  if (root === undefined) throw new DocumentProblem('look.xml-broken', { line: 1, problem: 'no element' });
  return root;
}

/** The parser writes "line:column: problem." */
function withoutPosition(message: string): string {
  return message.replace(/^\d+:\d+:\s*/, '').replace(/\.$/, '');
}

export function childrenNamed(element: XmlElement, name: string): readonly XmlElement[] {
  return element.children.filter((child) => child.name === name);
}

export function childNamed(element: XmlElement, name: string): XmlElement | undefined {
  return element.children.find((child) => child.name === name);
}

/** xs:float and xs:decimal in figures; "Infinity", "0x10" and "" are numbers to JavaScript only. */
const figure = /^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/;

/**
 * Numbers parted by white space, as arrays of CLF and triples of CDL hold them. Null where a word is no number. Goes word
 * by word: a list of the words of a large lattice would take ten times the memory of its numbers.
 */
export function numbersIn(text: string): Float64Array | null {
  let count = 0;
  for (const _ of text.matchAll(/\S+/g)) count += 1;
  const numbers = new Float64Array(count);
  let at = 0;
  for (const [word] of text.matchAll(/\S+/g)) {
    const value = figure.test(word) ? Number(word) : Number.NaN;
    if (!Number.isFinite(value)) return null;
    numbers[at++] = value;
  }
  return numbers;
}

/** Text as it may stand in an element or an attribute. Characters that XML cannot hold are left out. */
export function escapeXml(text: string): string {
  return text
    .replace(/[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]/gu, '')
    .replace(/&/g, '&amp;')
    .replace(/</g, '&lt;')
    .replace(/>/g, '&gt;')
    .replace(/"/g, '&quot;');
}
