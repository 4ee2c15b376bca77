import {
  type ClfExponent,
  type ClfLog,
  type ExponentParams,
  exponentStyles,
  type LogParams,
  logStyles,
} from './clf.ts';
import { DocumentProblem } from './problem.ts';
import { childrenNamed, numbersIn, type XmlElement } from './xml.ts';

export function readLog(step: XmlElement): ClfLog {
  const style = styleOf(step, logStyles);
  const isPlain = /log(2|10)$/i.test(style);
  const isCamera = style.startsWith('camera');
  const elements = childrenNamed(step, 'LogParams');
  if (elements.length === 0 && !isPlain) {
    throw new DocumentProblem('look.clf-missing', { node: step.name, what: 'LogParams' });
  }
  const params = perChannel(step, elements, plainLog, (element) => logParams(step, element, isCamera));
  if (params.some(({ base }) => base !== params[0].base)) {
    throw new DocumentProblem('look.clf-value', { node: step.name, what: 'base', value: params[1].base });
  }
  return { kind: 'Log', style, params };
}

const plainLog: LogParams = {
  base: 2,
  logSideSlope: 1,
  logSideOffset: 0,
  linSideSlope: 1,
  linSideOffset: 0,
  linSideBreak: null,
  linearSlope: null,
};

function logParams(step: XmlElement, element: XmlElement, isCamera: boolean): LogParams {
  const linSideBreak = numberOf(step, element, 'linSideBreak');
  if (isCamera && linSideBreak === null) {
    throw new DocumentProblem('look.clf-missing', { node: step.name, what: 'linSideBreak' });
  }
  const params: LogParams = {
    base: numberOf(step, element, 'base') ?? plainLog.base,
    logSideSlope: numberOf(step, element, 'logSideSlope') ?? plainLog.logSideSlope,
    logSideOffset: numberOf(step, element, 'logSideOffset') ?? plainLog.logSideOffset,
    linSideSlope: numberOf(step, element, 'linSideSlope') ?? plainLog.linSideSlope,
    linSideOffset: numberOf(step, element, 'linSideOffset') ?? plainLog.linSideOffset,
    linSideBreak,
    linearSlope: numberOf(step, element, 'linearSlope'),
  };
  const wrong =
    params.base <= 0 || params.base === 1
      ? 'base'
      : params.logSideSlope === 0
        ? 'logSideSlope'
        : params.linSideSlope === 0
          ? 'linSideSlope'
          : params.linearSlope === 0
            ? 'linearSlope'
            : isCamera && params.linSideSlope * (linSideBreak ?? 0) + params.linSideOffset <= 0
              ? 'linSideBreak'
              : null;
  if (wrong !== null) {
    throw new DocumentProblem('look.clf-value', { node: step.name, what: wrong, value: params[wrong] ?? 0 });
  }
  return params;
}

export function readExponent(step: XmlElement): ClfExponent {
  const style = styleOf(step, exponentStyles);
  const elements = childrenNamed(step, 'ExponentParams');
  if (elements.length === 0) {
    throw new DocumentProblem('look.clf-missing', { node: step.name, what: 'ExponentParams' });
  }
  const neutral: ExponentParams = { exponent: 1, offset: 0 };
  return {
    kind: 'Exponent',
    style,
    params: perChannel(step, elements, neutral, (element) =>
      exponentParams(step, element, style.startsWith('mon')),
    ),
  };
}

/** Bounds as the specification states them for the curves with a straight part; a plain power must be positive. */
function exponentParams(step: XmlElement, element: XmlElement, isMonCurve: boolean): ExponentParams {
  const exponent = numberOf(step, element, 'exponent');
  const offset = numberOf(step, element, 'offset');
  const isMissing = exponent === null || (isMonCurve && offset === null);
  if (isMissing) {
    const what = exponent === null ? 'exponent' : 'offset';
    throw new DocumentProblem('look.clf-missing', { node: step.name, what });
  }
  const isBadExponent = isMonCurve ? exponent < 1 || exponent > 10 : exponent <= 0 || exponent > 100;
  if (isBadExponent) {
    throw new DocumentProblem('look.clf-value', { node: step.name, what: 'exponent', value: exponent });
  }
  const isBadOffset = isMonCurve ? (offset ?? 0) < 0 || (offset ?? 0) > 0.9 : offset !== null;
  if (isBadOffset) {
    throw new DocumentProblem('look.clf-value', { node: step.name, what: 'offset', value: offset ?? 0 });
  }
  return { exponent, offset: offset ?? 0 };
}

function styleOf<Style extends string>(step: XmlElement, styles: readonly Style[]): Style {
  const given = step.attributes.get('style');
  if (given === undefined) throw new DocumentProblem('look.clf-missing', { node: step.name, what: 'style' });
  const style = styles.find((known) => known === given);
  if (style === undefined)
    throw new DocumentProblem('look.clf-value', { node: step.name, what: 'style', value: given });
  return style;
}

/** Parameters of red, green and blue: one element for all, or one for each channel that is named. */
function perChannel<Params>(
  step: XmlElement,
  elements: readonly XmlElement[],
  neutral: Params,
  read: (element: XmlElement) => Params,
): readonly [Params, Params, Params] {
  const named = new Map<string, Params>();
  for (const element of elements) {
    const channel = element.attributes.get('channel') ?? 'all';
    if (!['all', 'R', 'G', 'B'].includes(channel) || named.has(channel)) {
      throw new DocumentProblem('look.clf-value', { node: step.name, what: 'channel', value: channel });
    }
    named.set(channel, read(element));
  }
  const of = (channel: string): Params => named.get(channel) ?? named.get('all') ?? neutral;
  return [of('R'), of('G'), of('B')];
}

function numberOf(step: XmlElement, element: XmlElement, name: string): number | null {
  const text = element.attributes.get(name);
  if (text === undefined) return null;
  const [value, ...more] = numbersIn(text) ?? [];
  if (value === undefined || more.length > 0) {
    throw new DocumentProblem('look.clf-value', { node: step.name, what: name, value: text.slice(0, 40) });
  }
  return value;
}
