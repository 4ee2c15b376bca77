import type { Finding, SettingChange } from '../../facts/index.ts';
import type { Weighed } from './exposed-facts.ts';

/** Findings that hold the light against the reference's, and so say what its exposure time means. */
const ofReferenceLight: ReadonlySet<string> = new Set([
  'exposed.off-reference',
  'exposed.strobe-off-reference',
]);

/**
 * The light with what the camera was set to, each a doubt: a dial is turned by accident or on purpose, and only people know
 * which. A time that differs is told in one sentence with light that does: it may be why.
 */
export function withSettings(lights: readonly Weighed[], settings: readonly SettingChange[]): Weighed[] {
  const time = settings.find(({ setting }) => setting === 'time');
  const told = lights.map((light) =>
    time !== undefined && light.judgement !== 'good' && ofReferenceLight.has(light.finding.code)
      ? { ...light, finding: withTime(light.finding, time) }
      : light,
  );
  const isMerged = told.some((light, index) => light !== lights[index]);
  const rest = settings.filter((each) => each !== time || !isMerged);
  return [
    ...told,
    ...rest.map(({ setting, was, is }): Weighed => {
      return { judgement: 'doubt', finding: { code: `exposed.setting-${setting}`, args: { was, is } } };
    }),
  ];
}

function withTime({ code, args }: Finding, { was, is }: SettingChange): Finding {
  return { code, args: { ...args, timeWas: was, timeIs: is } };
}
