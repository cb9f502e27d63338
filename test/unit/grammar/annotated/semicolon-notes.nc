# SYNTAX TEST "source.nc-program" "process notes where comments are written with a semicolon"
;HOBBING: MODULE=2 HAND=RIGHT
# <- comment.line.semicolon.note.nc-program punctuation.definition.comment.nc-program
#^^^^^^^ entity.name.type.process.nc-program
#       ^ punctuation.separator.process.nc-program
#         ^^^^^^ variable.parameter.note.nc-program
#               ^ keyword.operator.assignment.nc-program
#                ^ constant.numeric.nc-program
#                       ^^^^^ string.unquoted.value.nc-program
; + HOB-DIA=63
# ^ keyword.operator.continuation.nc-program
#   ^^^^^^^ variable.parameter.note.nc-program
; END HOBBING
# ^^^ keyword.other.end.nc-program
#     ^^^^^^^ entity.name.type.process.nc-program
; END HOBBING TODAY
# ^^^ comment.line.semicolon.nc-program - keyword.other.end.nc-program
; PLAIN: words
# ^^^^^ comment.line.semicolon.nc-program - entity.name.type.process.nc-program
G1
# <-- keyword.control.preparatory.nc-program
