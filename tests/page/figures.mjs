export async function figures() {}
