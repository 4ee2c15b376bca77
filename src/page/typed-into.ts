/** Whether a key goes into a field, and so is none of the page's. Of a slider that is true of the keys that move it. */
export function isTypedInto({ target, key }: KeyboardEvent): boolean {
  if (target instanceof HTMLTextAreaElement || target instanceof HTMLSelectElement) return true;
  if (!(target instanceof HTMLInputElement)) return false;
  if (target.type === 'range')
    return key.startsWith('Arrow') || ['Home', 'End', 'PageUp', 'PageDown'].includes(key);
  return !['checkbox', 'radio', 'file'].includes(target.type);
}
