"""How long it lasts: wear, the growth of lash and blow with it, when to look again."""
