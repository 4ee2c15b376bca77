import type { Finding } from '../facts/index.ts';
import { english } from './english.ts';
import { plainText } from './plain-text.ts';

/** Languages there are sentences for. */
export type Language = 'en';

/**
 * The sentence a person would say for a finding: no markup, no trailing blank, ends with a full stop.
 * An unknown code gives the code itself with its figures, so that nothing is ever swallowed. Control characters, which a
 * client may put into a name, are shown as U+FFFD: a sentence goes to terminals too.
 */
export function sentence(finding: Finding, _language: Language = 'en'): string {
  return plainText(say(finding));
}

function say(finding: Finding): string {
  const make = english[finding.code];
  if (make === undefined) {
    const figures = Object.entries(finding.args).map(([name, value]) => `${name} ${value}`);
    return figures.length === 0 ? `${finding.code}.` : `${finding.code}: ${figures.join(', ')}.`;
  }
  return make(finding.args);
}

/** Every code there is a sentence for; a test holds the rooms' codes against this list. */
export function knownCodes(): readonly string[] {
  return Object.keys(english);
}
