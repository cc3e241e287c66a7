# SCREENS: the lead may have overwritten this file by accident; please write it again if it was yours.
