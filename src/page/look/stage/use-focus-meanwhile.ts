import { useEffect } from 'react';

/** Has the focus while it is there, and gives it back to what had it. */
export function useFocusMeanwhile(field: { readonly current: HTMLElement | null }): void {
  useEffect(() => {
    const before = document.activeElement;
    field.current?.focus();
    return () => {
      if (before instanceof HTMLElement && before.isConnected) before.focus();
    };
  }, [field]);
}
