export function GroupProgressScreen() {
  return null;
}
