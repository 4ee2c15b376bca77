import { type SentenceTable, textArg } from './phrases.ts';

/** What the web door says in the station's log. Codes `web.*` come from serve. */
export const webSentences: SentenceTable = {
  'web.request-failed': (args) =>
    `${textArg(args, 'method')} ${textArg(args, 'url')} failed (${textArg(args, 'code')}: ${textArg(args, 'message')}).`,
  'web.stream-dropped': (args) =>
    textArg(args, 'reason') === 'took-nothing'
      ? 'A page took no events for a minute; its line was closed, and it comes back by itself.'
      : 'A page fell too far behind the events; its line was closed, and it comes back by itself.',
  'web.framework': (args) => `The web door had trouble with an answer (${textArg(args, 'message')}).`,
};
