export function StudentProgressScreen() {
  return null;
}
