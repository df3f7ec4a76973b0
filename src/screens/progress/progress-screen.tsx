export function ProgressScreen() {
  return null;
}
