import { isHere, reaches, type Who } from './who.ts';

/**
 * Who may call what: the one place where that is said. A call that is missing here is the operator's, and
 * `rights.test.ts` fails until somebody has decided.
 *
 * `anyone` needs no link: what a device needs to come in by one, and what is public anyway. `guest`, `pocket` and
 * `operator` are the least scope; each may do what those before it may.
 */
export type Right =
  | 'anyone'
  | Who['scope']
  /** The operator on the computer of the station only: what reads its folders. No link opens it. */
  | 'here'
  /** From pocket on, but a pocket may say only this much in the body. */
  | { readonly pocketSays: readonly string[] };

export const rights: Readonly<Record<string, Right>> = {
  // The page, and what brings it in.
  'GET /in': 'anyone',
  'GET /assets/*': 'anyone',
  'GET /icon.svg': 'anyone',
  'GET /': 'guest',
  'GET /guest': 'guest',
  'GET /pocket': 'pocket',
  'GET /set': 'operator',
  'GET /slates': 'operator',
  'GET /look': 'operator',
  'GET /clock': 'pocket',
  'GET /*': 'operator',
  'GET /api/openapi.json': 'operator',
  // Links.
  'POST /api/v1/links/enter': 'anyone',
  'GET /api/v1/links/me': 'guest',
  'DELETE /api/v1/links/me': 'guest',
  'GET /api/v1/links': 'operator',
  'POST /api/v1/links': 'operator',
  'DELETE /api/v1/links/:link': 'operator',
  // The station.
  'GET /api/v1/health': 'guest',
  'GET /api/v1/events': 'guest',
  'GET /api/v1/station': 'pocket',
  'GET /api/v1/station/certificate.pem': 'anyone',
  'GET /api/v1/station/certificate.crt': 'anyone',
  'POST /api/v1/cameras': 'operator',
  'PATCH /api/v1/cameras/:camera': 'operator',
  'GET /api/v1/cameras/:camera/sheet.pdf': 'operator',
  'GET /api/v1/diary': 'operator',
  'GET /api/v1/line': 'operator',
  'POST /api/v1/line/rehearsal': 'pocket',
  'GET /api/v1/arrivals': 'operator',
  'DELETE /api/v1/arrivals/:id': 'operator',
  // Jobs and shots.
  'GET /api/v1/jobs': 'operator',
  'POST /api/v1/jobs': 'operator',
  'GET /api/v1/jobs/:job': 'pocket',
  'PATCH /api/v1/jobs/:job': { pocketSays: ['currentShot'] },
  'GET /api/v1/jobs/:job/series': 'pocket',
  'POST /api/v1/jobs/:job/frames': 'operator',
  'POST /api/v1/jobs/:job/targets': 'operator',
  'DELETE /api/v1/jobs/:job/targets/:frame': 'operator',
  'POST /api/v1/jobs/:job/shots': 'operator',
  'PATCH /api/v1/jobs/:job/shots/:shot': 'operator',
  'DELETE /api/v1/jobs/:job/shots/:shot': 'operator',
  'PUT /api/v1/jobs/:job/shots/:shot/scale': 'operator',
  'DELETE /api/v1/jobs/:job/shots/:shot/scale': 'operator',
  'PUT /api/v1/jobs/:job/shots/:shot/layout': 'operator',
  'GET /api/v1/jobs/:job/shots/:shot/layout': 'pocket',
  'POST /api/v1/jobs/:job/shots/:shot/back': 'operator',
  'PUT /api/v1/jobs/:job/order': 'operator',
  'POST /api/v1/jobs/:job/shots/:shot/baseline': 'operator',
  'DELETE /api/v1/jobs/:job/shots/:shot/baseline/:frame': 'operator',
  // A guest gets those of the shots only that are shared.
  'GET /api/v1/jobs/:job/agreements': 'guest',
  'POST /api/v1/jobs/:job/shots/:shot/agreements': 'guest',
  'DELETE /api/v1/jobs/:job/agreements/:agreement': 'guest',
  'POST /api/v1/jobs/:job/shots/import': 'operator',
  'GET /api/v1/jobs/:job/shots/export': 'operator',
  // The strike check.
  'GET /api/v1/strike': 'operator',
  'PUT /api/v1/jobs/:job/strike/numbers/:camera': 'operator',
  'DELETE /api/v1/jobs/:job/strike/numbers/:camera': 'operator',
  'POST /api/v1/jobs/:job/strike/explained': 'operator',
  'DELETE /api/v1/jobs/:job/strike/explained': 'operator',
  'PUT /api/v1/jobs/:job/strike/signature': 'operator',
  'DELETE /api/v1/jobs/:job/strike/signature': 'operator',
  'GET /api/v1/undo': 'operator',
  'POST /api/v1/undo': 'operator',
  'POST /api/v1/undo/back': 'operator',
  // Looks.
  'GET /api/v1/looks': 'operator',
  'POST /api/v1/looks': 'operator',
  'GET /api/v1/looks/:look': 'operator',
  'POST /api/v1/looks/:look/aside': 'operator',
  'POST /api/v1/looks/:look/back': 'operator',
  'POST /api/v1/looks/:look/use': 'operator',
  'POST /api/v1/frames/:id/try': 'operator',
  // The client's screen: a device that stands before the client, and the phone that says what it shows.
  'GET /api/v1/client': 'pocket',
  'PUT /api/v1/client': 'pocket',
  // Deliveries.
  'GET /api/v1/deliveries': 'operator',
  'POST /api/v1/deliveries': 'operator',
  'GET /api/v1/deliveries/:delivery': 'operator',
  'PATCH /api/v1/deliveries/:delivery': 'operator',
  'GET /api/v1/deliveries/specifications': 'operator',
  'POST /api/v1/deliveries/plan': 'operator',
  // Cards and copies.
  'GET /api/v1/cards': 'here',
  'POST /api/v1/cards': 'here',
  'DELETE /api/v1/cards': 'here',
  'POST /api/v1/cards/take-in': 'here',
  'POST /api/v1/cards/outcome': 'here',
  'GET /api/v1/bags': 'here',
  'POST /api/v1/bags': 'here',
  'POST /api/v1/bags/check': 'here',
  'DELETE /api/v1/bags': 'here',
  'GET /api/v1/verification': 'operator',
  'PUT /api/v1/verification': 'operator',
  'POST /api/v1/originals/put-back': 'operator',
  // What is printed.
  // Others than the operator get the client's copy; a guest one of what is shared with them.
  'GET /api/v1/jobs/:job/contact-sheet.pdf': 'guest',
  'GET /api/v1/jobs/:job/papers': 'operator',
  'GET /api/v1/jobs/:job/report.pdf': 'operator',
  'GET /api/v1/jobs/:job/report': 'operator',
  'GET /api/v1/metadata': 'operator',
  'POST /api/v1/metadata': 'operator',
  'DELETE /api/v1/metadata/:title': 'operator',
  'POST /api/v1/metadata/:title/back': 'operator',
  'GET /api/v1/destinations': 'operator',
  'PUT /api/v1/destinations/:destination': 'operator',
  'DELETE /api/v1/destinations/:destination': 'operator',
  'POST /api/v1/destinations/:destination/test': 'operator',
  // Frames. A guest gets those only that are shared (`shared.ts`).
  'GET /api/v1/frames': 'guest',
  'POST /api/v1/marks': 'operator',
  'GET /api/v1/frames/:id': 'guest',
  'PATCH /api/v1/frames/:id': { pocketSays: ['mark', 'shot', 'purpose', 'seen'] },
  'GET /api/v1/frames/:id/remarks': 'guest',
  'POST /api/v1/frames/:id/remarks': 'guest',
  'POST /api/v1/frames/:id/remarks/:remark/answers': 'guest',
  'PUT /api/v1/frames/:id/remarks/:remark/settled': 'pocket',
  'GET /api/v1/frames/:id/first-view': 'guest',
  'GET /api/v1/frames/:id/picture': 'guest',
  'GET /api/v1/frames/:id/region': 'pocket',
  'GET /api/v1/frames/:id/scene': 'operator',
  'GET /api/v1/frames/:id/readings': 'operator',
  'GET /api/v1/frames/:id/xmp': 'operator',
  'GET /api/v1/frames/:id/files/:name': 'operator',
  'PUT /api/v1/frames/:id/acceptances/:question': 'operator',
  'DELETE /api/v1/frames/:id/acceptances/:question': 'operator',
};

/** What is asked of who calls this: `GET /api/v1/frames/:id`, HEAD like GET. */
export function rightTo(method: string, route: string | undefined): Right {
  const key = `${method === 'HEAD' ? 'GET' : method} ${route ?? ''}`;
  return Object.hasOwn(rights, key) ? (rights[key] ?? 'operator') : 'operator';
}

/** Whether somebody may call it at all. */
export function mayCall(right: Right, who: Who | null): boolean {
  if (right === 'anyone') return true;
  if (who === null) return false;
  if (right === 'here') return isHere(who);
  return reaches(who.scope, typeof right === 'string' ? right : 'pocket');
}

/** What a body says that who sends it may not say; null where all is well. */
export function beyondSay(right: Right, who: Who, body: unknown): string | null {
  if (typeof right === 'string' || who.scope === 'operator') return null;
  if (typeof body !== 'object' || body === null) return null;
  return Object.keys(body).find((field) => !right.pocketSays.includes(field)) ?? null;
}
